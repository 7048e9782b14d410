import { describe, expect, it } from 'vitest';
import { writeCharts } from '../../src/excel/charts';
import { acceptancePlan } from '../../src/sheets/acceptance';
import { type DrawnLot, drawLot } from '../../src/sheets/acceptance/setup';
import { cellsOf, rectOf } from '../../src/sheets/address';
import { ageingPlan } from '../../src/sheets/ageing';
import { defaultAgeing } from '../../src/sheets/ageing/setup';
import type { ColumnChart, CurveChart } from '../../src/sheets/book';
import { comparisonPlan, DEFAULT_COMPARISON } from '../../src/sheets/comparison';
import { defaultRoom, needPlan } from '../../src/sheets/need';
import { offersPlan } from '../../src/sheets/offers';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { comparedRun } from '../sheets/comparedruns';
import { SETUPS } from '../sheets/setups';

/** Notes every call and every property set, as "charts.add(ColumnClustered, range B5:C5, Rows)". */
function recorder(said: string[], path = ''): never {
  const target = () => undefined;
  return new Proxy(target, {
    get: (_, key) => recorder(said, path === '' ? String(key) : `${path}.${String(key)}`),
    set: (_, key, value) => {
      said.push(`${path}.${String(key)} = ${value}`);
      return true;
    },
    apply: (_, __, args: unknown[]) => {
      const words = args.map((arg) =>
        typeof arg === 'function' ? String(arg.name || 'object') : String(arg),
      );
      if (path.endsWith('getRange'))
        return Object.assign(() => undefined, { toString: () => `range ${args[0]}` });
      said.push(`${path}(${words.join(', ')})`);
      return recorder(said, `${path}()`);
    },
  }) as never;
}

function smallLot(): DrawnLot {
  const lot = drawLot({
    lot: 'Delivery of 8 (invented)',
    serials: Array.from({ length: 8 }, (_, i) => `BIB-${i + 1}`),
    aql: 2.5,
    seed: '4 2 6 1',
    drawnBy: 'A. Person (invented)',
    drawnOn: '2026-03-02',
    leastWhite: 2000,
    counting: 'value',
  });
  if (!lot.ok) throw new Error('No lot');
  return lot.value;
}

const runs = ['full-fields', 'tiled-everything'].map((name, i) =>
  comparedRun(runPlan(SETUPS[name]!, `a${i}`), `Run ${i + 1}`),
);
function plan() {
  const outcome = comparisonPlan(runs, DEFAULT_COMPARISON, 'cmp1');
  if (!outcome.ok) throw new Error('No comparison');
  return outcome.value;
}

describe('the charts over a number axis', () => {
  const ageing = ageingPlan({ ...defaultAgeing('Unit 1 (invented)'), needed: 2000 }, 'a1');

  it('show measurements as points and lines by their own points, inside what is printed', () => {
    const [chart] = ageing.charts as [CurveChart];
    expect(chart.series.map(({ drawn }) => drawn)).toEqual(['points', 'line', 'dashes', 'line']);
    const range = (name: string) => rectOf(ageing.names.find((one) => one.name === name)!.range);
    expect(rectOf(chart.series[0]!.x)).toEqual(range('MeasuredHours'));
    expect(rectOf(chart.series[0]!.y)).toEqual(range('MeasuredOutput'));
    for (const { x, y } of chart.series) expect(rectOf(x).rows).toBe(rectOf(y).rows);
    const [page, over] = [rectOf(ageing.print.area), rectOf(chart.over)];
    expect(over.column + over.columns).toBeLessThanOrEqual(page.columns);
    expect(cellsOf(chart.over).filter((at) => ageing.cells[at])).toEqual([]);
  });

  it('hold no text along their axis, which Excel would count 1, 2, 3', () => {
    const { charts, names } = acceptancePlan(smallLot(), 'l1');
    const [{ series }] = charts as [CurveChart];
    // A lot of 8: from none to 8 that do not conform.
    expect(rectOf(series[0]!.x).rows).toBe(9);
    expect(names.some(({ name }) => name === 'CurveNonconforming')).toBe(true);
  });

  it('are asked of Excel by members of ExcelApi 1.7 and older', () => {
    const said: string[] = [];
    writeCharts(recorder(said), ageing.charts);
    expect(said).toContain('charts.add().series.add().chartType = XYScatterLinesNoMarkers');
    expect(said).toContain('charts.add().series.add().format.line.lineStyle = Dash');
    expect(said).toContain('charts.add().axes.categoryAxis.title.text = hours of the light source');
    expect(said.filter((line) => line.includes('setXAxisValues'))).toHaveLength(4);
    // Every series by its own values: what the program makes of the range it adds a chart for is its guess.
    expect(said.filter((line) => line.includes('setValues'))).toHaveLength(4);
  });

  it('stand on the sheets of needs and offers as columns, one a line', () => {
    const need = needPlan(
      { rooms: [defaultRoom('A (invented)'), defaultRoom('B (invented)')], spare: 3 },
      'n1',
    );
    const [chart] = need.charts as [ColumnChart];
    expect(chart.categories).toBe('A6:A7');
    const offers = offersPlan(
      {
        asked: { white: 2000, colour: 2000 },
        use: { years: 5, hoursPerYear: 1000, tariff: 0.3, currency: 'EUR' },
        offers: [{ bidder: 'North (invented)', white: 3000 }],
        spare: 2,
      },
      'o1',
    );
    const said: string[] = [];
    writeCharts(recorder(said), offers.charts);
    expect(said[0]).toBe('charts.add(ColumnClustered, object, Rows)');
    writeCharts(recorder(said), need.charts);
    expect(said).toContain('charts.add(ColumnClustered, object, Columns)');
  });
});

describe('the chart of a comparison', () => {
  it('shows white and colour of every run, beside the cells', () => {
    const { charts, cells } = plan();
    expect(charts).toEqual([
      {
        title: 'Light output, lm',
        over: 'L4:S19',
        categories: 'B4:C4',
        series: [
          { name: 'white', values: 'B5:C5' },
          { name: 'colour', values: 'B7:C7' },
        ],
      },
    ]);
    expect(cells.L4).toBeUndefined();
  });

  it('is asked of Excel by members of ExcelApi 1.7 and older, series by series', () => {
    const said: string[] = [];
    writeCharts(recorder(said), plan().charts);
    expect(said.map((line) => line.replace(/range (\S+)/g, '$1'))).toEqual([
      'charts.add(ColumnClustered, object, Rows)',
      'charts.add().series.getItemAt(0)',
      'charts.add().series.getItemAt().setValues(object)',
      'charts.add().series.getItemAt().name = white',
      'charts.add().series.getItemAt().setXAxisValues(object)',
      'charts.add().series.add(colour)',
      'charts.add().series.add().setValues(object)',
      'charts.add().series.add().setXAxisValues(object)',
      'charts.add().title.text = Light output, lm',
      'charts.add().legend.position = Bottom',
      'charts.add().setPosition(L4, S19)',
    ]);
  });

  it('goes into the workbook’s data', () => {
    expect(bookOf([plan()]).sheets[0]!.charts).toHaveLength(1);
  });
});
