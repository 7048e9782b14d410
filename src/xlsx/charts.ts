import type { WriteSheet } from 'hucre';
import { absolute, quoteSheet, rectOf } from '../sheets/address';
import { type Chart, isCurves } from '../sheets/book';

type StoredChart = NonNullable<WriteSheet['charts']>[number];
type StoredSeries = StoredChart['series'][number];

/** Grey levels far apart, so that the columns are told from each other in any print. */
const SHADES = ['1F4E8C', 'A9B7C6'];
/** One colour a curve; they differ in dashes and markers as well. */
const LINES = ['1F4E8C', '1F2933', '8A4B00', '7B8794'];

/** Ticks outwards at the numbers only: what is not said some programs draw densely. */
const AXIS = { majorTickMark: 'out', minorTickMark: 'none' } as const;

/** Points: the least width a line can have, which `patch` takes for "no line", as the library knows none. */
export const NO_LINE_POINTS = 0.25;

/** A sheet's charts as the library takes them. */
export function storeCharts(sheet: string, charts: readonly Chart[]): StoredChart[] {
  const cells = (range: string) => `${quoteSheet(sheet)}!${absolute(range)}`;
  return charts.map((chart) => {
    const { row, column, rows, columns } = rectOf(chart.over);
    const common = {
      title: chart.title,
      legend: 'bottom',
      anchor: { from: { row, col: column }, to: { row: row + rows, col: column + columns } },
    } as const;
    if (!isCurves(chart)) {
      return {
        ...common,
        type: 'column',
        titleFontSize: 11,
        axes: { x: AXIS, y: { ...AXIS, gridlines: { major: true }, scale: { min: 0 } } },
        series: chart.series.map(({ name, values }, i) => ({
          name,
          values: cells(values),
          categories: cells(chart.categories),
          color: SHADES[i % SHADES.length]!,
        })),
      };
    }
    const axis = {
      axisTitleFontSize: 9,
      axisTitleBold: false,
      ...AXIS,
    } as const;
    return {
      ...common,
      type: 'scatter',
      titleFontSize: 11,
      scatterStyle: 'lineMarker',
      axes: {
        x: { title: chart.across, ...axis },
        y: {
          title: chart.up,
          ...axis,
          axisTitleRotation: -90,
          gridlines: { major: true },
          scale: { min: 0, ...(chart.top === undefined ? {} : { max: chart.top }) },
        },
      },
      series: chart.series.map(({ name, x, y, drawn }, i) => ({
        name,
        values: cells(y),
        categories: cells(x),
        ...look(drawn, LINES[i % LINES.length]!),
      })),
    };
  });
}

function look(drawn: 'points' | 'line' | 'dashes', color: string): Partial<StoredSeries> {
  if (drawn === 'points')
    return { stroke: { width: NO_LINE_POINTS }, marker: { symbol: 'circle', size: 7, fill: color } };
  return {
    color,
    stroke: { width: 1.75, ...(drawn === 'dashes' ? { dash: 'dash' } : {}) },
    marker: { symbol: 'none' },
    smooth: false,
  };
}
