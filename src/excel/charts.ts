import type { ColumnChart } from '../sheets/book';

/** Queues the charts of a plan: `Chart` from ExcelApi 1.1, values and categories of a series from 1.7. */
export function writeCharts(sheet: Excel.Worksheet, charts: readonly ColumnChart[] = []): void {
  for (const { title, over, categories, series } of charts) {
    const [first, ...others] = series;
    if (!first) continue;
    const chart = sheet.charts.add('ColumnClustered', sheet.getRange(first.values), 'Rows');
    chart.title.text = title;
    chart.legend.position = 'Bottom';
    const [from = over, to = from] = over.split(':');
    chart.setPosition(from, to);
    const names = sheet.getRange(categories);
    const shown = chart.series.getItemAt(0);
    shown.name = first.name;
    shown.setXAxisValues(names);
    for (const { name, values } of others) {
      const added = chart.series.add(name);
      added.setValues(sheet.getRange(values));
      added.setXAxisValues(names);
    }
  }
}
