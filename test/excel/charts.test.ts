import { describe, expect, it } from 'vitest';
import { writeCharts } from '../../src/excel/charts';
import { comparisonPlan, DEFAULT_COMPARISON } from '../../src/sheets/comparison';
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

const runs = ['full-fields', 'tiled-everything'].map((name, i) =>
  comparedRun(runPlan(SETUPS[name]!, `a${i}`), `Run ${i + 1}`),
);
function plan() {
  const outcome = comparisonPlan(runs, DEFAULT_COMPARISON, 'cmp1');
  if (!outcome.ok) throw new Error('No comparison');
  return outcome.value;
}

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
      'charts.add().title.text = Light output, lm',
      'charts.add().legend.position = Bottom',
      'charts.add().setPosition(L4, S19)',
      'charts.add().series.getItemAt(0)',
      'charts.add().series.getItemAt().name = white',
      'charts.add().series.getItemAt().setXAxisValues(object)',
      'charts.add().series.add(colour)',
      'charts.add().series.add().setValues(object)',
      'charts.add().series.add().setXAxisValues(object)',
    ]);
  });

  it('goes into the workbook’s data', () => {
    expect(bookOf([plan()]).sheets[0]!.charts).toHaveLength(1);
  });
});
