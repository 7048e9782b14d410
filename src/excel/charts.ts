import { rectOf } from '../sheets/address';
import { type Chart, type ColumnChart, type CurveChart, isCurves } from '../sheets/book';

/** Queues the charts of a plan: `Chart` from ExcelApi 1.1, values, categories and looks of a series from 1.7. */
export function writeCharts(sheet: Excel.Worksheet, charts: readonly Chart[] = []): void {
  for (const chart of charts) {
    if (chart.series.length === 0) continue;
    const drawn = isCurves(chart) ? writeCurves(sheet, chart) : writeColumns(sheet, chart);
    drawn.title.text = chart.title;
    drawn.legend.position = 'Bottom';
    const [from = chart.over, to = from] = chart.over.split(':');
    drawn.setPosition(from, to);
  }
}

function writeColumns(sheet: Excel.Worksheet, { categories, series }: ColumnChart): Excel.Chart {
  const [first, ...others] = series as [ColumnChart['series'][number], ...ColumnChart['series']];
  const by = rectOf(first.values).rows > 1 ? 'Columns' : 'Rows';
  const chart = sheet.charts.add('ColumnClustered', sheet.getRange(first.values), by);
  const names = sheet.getRange(categories);
  const shown = chart.series.getItemAt(0);
  // What the program makes of the range by itself may leave a line out or take one for names.
  shown.setValues(sheet.getRange(first.values));
  shown.name = first.name;
  shown.setXAxisValues(names);
  for (const { name, values } of others) {
    const added = chart.series.add(name);
    added.setValues(sheet.getRange(values));
    added.setXAxisValues(names);
  }
  return chart;
}

function writeCurves(sheet: Excel.Worksheet, { across, up, top, series }: CurveChart): Excel.Chart {
  const chart = sheet.charts.add('XYScatter', sheet.getRange(series[0]!.y), 'Columns');
  series.forEach(({ name, x, y, drawn }, i) => {
    const shown = i === 0 ? chart.series.getItemAt(0) : chart.series.add(name);
    shown.name = name;
    shown.setValues(sheet.getRange(y));
    shown.setXAxisValues(sheet.getRange(x));
    if (drawn === 'points') return;
    shown.chartType = 'XYScatterLinesNoMarkers';
    if (drawn === 'dashes') shown.format.line.lineStyle = 'Dash';
  });
  chart.axes.categoryAxis.title.text = across;
  chart.axes.valueAxis.title.text = up;
  chart.axes.valueAxis.minimum = 0;
  if (top !== undefined) chart.axes.valueAxis.maximum = top;
  return chart;
}
