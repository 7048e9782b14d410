import type { WriteSheet } from 'hucre';
import { absolute, quoteSheet, rectOf } from '../sheets/address';
import type { ColumnChart } from '../sheets/book';

/** Grey levels far apart, so that the columns are told from each other in any print. */
const SHADES = ['1F4E8C', 'A9B7C6'];

/** A sheet's charts as the library takes them. */
export function storeCharts(
  sheet: string,
  charts: readonly ColumnChart[],
): NonNullable<WriteSheet['charts']> {
  const cells = (range: string) => `${quoteSheet(sheet)}!${absolute(range)}`;
  return charts.map(({ title, over, categories, series }) => {
    const { row, column, rows, columns } = rectOf(over);
    return {
      type: 'column',
      title,
      legend: 'bottom',
      anchor: { from: { row, col: column }, to: { row: row + rows, col: column + columns } },
      series: series.map(({ name, values }, i) => ({
        name,
        values: cells(values),
        categories: cells(categories),
        color: SHADES[i % SHADES.length]!,
      })),
    };
  });
}
