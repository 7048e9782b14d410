import { describe, expect, it } from 'vitest';
import { BATCH_READINGS } from '../../src/procurement/batch/columns';
import { batchPlan } from '../../src/sheets/batch';
import { BATCH_AMBIENTS } from '../../src/sheets/batch/setup';
import type { Book } from '../../src/sheets/book';
import { PlanBuilder } from '../../src/sheets/builder';
import { findingsPlan } from '../../src/sheets/findings';
import { logPlan } from '../../src/sheets/log';
import { NAMES } from '../../src/sheets/names/all';
import { FORMER_PLAN_NAMES } from '../../src/sheets/names/others';
import { IDENTITY, parseIdentity, SHEET_KINDS } from '../../src/sheets/plan';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { tracePlan } from '../../src/sheets/trace';
import { certificate, EXAMPLES, wideCertificate, wideComparison } from '../audit/examples';
import { frozenOf, GENERATIONS } from '../frozen/record';
import { batchSetup } from './batchcases';
import { randomRun } from './randomrun';
import { SETUPS } from './setups';

/* Regression: the table of names holds what plans build, no more and no less, for every kind of sheet. */

const moment = { when: '2026-03-02T09:30:00Z', who: 'A. Person (invented)', program: 'test' };
const { image } = SETUPS['tiled-everything']!;

const RUNS = [
  ...Object.values(SETUPS).map((setup) => runPlan(setup, 'run1')),
  ...Array.from({ length: 20 }, (_, seed) => randomRun(seed).plan),
];

function books(): Book[] {
  return [
    bookOf([...RUNS, logPlan('log1')]),
    ...BATCH_READINGS.flatMap((readings) =>
      BATCH_AMBIENTS.map((ambient) =>
        bookOf([batchPlan(batchSetup({ readings, ambient, image, lines: 2 }), 'batch1')]),
      ),
    ),
    bookOf([batchPlan(batchSetup({ lines: 2 }), 'batch1')]),
    ...[...Object.values(EXAMPLES), wideComparison, wideCertificate].map((make) => make()),
    certificate(runPlan(SETUPS['tiled-everything']!, 'run1')),
    bookOf([
      findingsPlan(
        {
          moment,
          sheets: [],
          records: [],
          others: [],
          outcome: '',
          isCancelled: false,
          findings: [{ sheet: '', at: '', severity: '', message: '', expected: '', found: '', remedy: '' }],
        },
        'found1',
      ),
      tracePlan(
        {
          moment,
          sheet: 'Run',
          cell: 'A1',
          traced: '',
          lines: [
            {
              level: 0,
              what: '',
              value: 1,
              unit: '',
              cell: 'A1',
              words: '',
              numbers: '',
              formula: '',
              source: '',
              findings: '',
            },
          ],
        },
        'trace1',
      ),
    ]),
  ];
}

describe('names of cells', () => {
  const built = new Map<string, Set<string>>(SHEET_KINDS.map((kind) => [kind, new Set()]));
  for (const { sheets } of books())
    for (const { names } of sheets) {
      const mark = names.find(({ name }) => name === IDENTITY);
      const own = built.get(parseIdentity(mark?.refersTo ?? '')?.kind ?? '');
      for (const { name } of names) if (name !== IDENTITY) own?.add(name);
    }
  // Names that only formulas of a plan use, and sheets of former layouts have.
  for (const { inner = [] } of RUNS) for (const { name } of inner) built.get('run')!.add(name);

  it.each(SHEET_KINDS)('%s: they are those that its plans build', (kind) => {
    expect(new Set(NAMES[kind]).size).toBe(NAMES[kind].length);
    expect([...built.get(kind)!].sort()).toEqual([...NAMES[kind]].sort());
  });

  it('are those of sheets that were built in former times', () => {
    for (const generation of GENERATIONS)
      for (const file of generation.files)
        for (const { kind, typed, results, sheet } of frozenOf(generation, file).sheets) {
          const known = SHEET_KINDS.find((each) => each === kind);
          if (!known) continue;
          const former = known === 'acceptance' ? FORMER_PLAN_NAMES : [];
          const names: readonly string[] = [...NAMES[known], ...former];
          const others = [...Object.keys(typed), ...Object.keys(results)].filter(
            (name) => !names.includes(name),
          );
          expect(others, `${generation.name}/${file}, ${sheet}`).toEqual([]);
        }
  });

  it('that no sheet of the kind has are refused when it is built', () => {
    const plan = new PlanBuilder()
      .put('A1', { role: 'label' })
      .name('WhiteReedings', 'A1', 'a slip of the pen');
    expect(() =>
      plan.build({
        kind: 'run',
        version: 1,
        id: 'a1',
        title: 'Run',
        columns: {},
        print: { orientation: 'portrait' },
        start: 'A1',
      }),
    ).toThrow('A run sheet has no cells called WhiteReedings');
  });
});
