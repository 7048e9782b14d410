import { describe, expect, it } from 'vitest';
import { addressOf, rectOf } from '../../src/sheets/address';
import { besidesOf, neighboursOf } from '../../src/sheets/names/beside';
import { RUN_VERSION, runPlan, runResults } from '../../src/sheets/run';
import { budgetIds } from '../../src/sheets/run/budgetid';
import { uncertaintyResults } from '../../src/sheets/run/verdict';
import { rangeNamed } from './named';
import { randomRun } from './randomrun';
import { SETUPS } from './setups';

/*
 * Cells that bear no name are found by their distance from one that does: held against where plans put them, which is
 * told in another way. Regression: so many names and no more.
 */

const runs = [
  ...Object.entries(SETUPS).map(([name, setup]) => ({ name, setup, plan: runPlan(setup, 'run1') })),
  ...Array.from({ length: 12 }, (_, seed) => ({ name: `random ${seed}`, ...randomRun(seed) })),
];
const named = ({ plan }: (typeof runs)[number]) =>
  new Map(plan.names.map(({ name, range }) => [name as string, range]));
const spelt = (range: string) => addressOf(rectOf(range));

describe.each(runs)('beside the names of a run sheet, $name', (run) => {
  const { plan, setup } = run;
  const found = besidesOf(plan, named(run));

  it('stands what the plan has there', () => {
    expect(found.size).toBeGreaterThan(40);
    for (const [name, address] of found) {
      expect(address, name).toBe(spelt(rangeNamed(plan, name)));
      expect(neighboursOf(name).length, name).toBeGreaterThan(0);
    }
  });

  it('stands all that other sheets, the pane and the audit ask for', () => {
    const wanted = [
      ...[...runResults(setup), ...uncertaintyResults(setup)].flatMap(({ name }) => [name, `${name}Plain`]),
      ...budgetIds(setup).flatMap((id) =>
        ['Components', 'Parts', 'Nu', 'Shares'].map((end) => `${id}${end}`),
      ),
      ...(setup.colour === 'none' ? ['White'] : ['White', 'Red', 'Green', 'Blue']).flatMap((stem) =>
        ['Readings', 'Range', 'Net'].map((end) => `${stem}${end}`),
      ),
      ...['UniformityTrust', 'LuxPerUnit', 'AmbientMean', 'CauseLabels', 'CauseStatus'],
    ];
    const all: ReadonlySet<string> = new Set([...named(run).keys(), ...found.keys()]);
    expect(wanted.filter((name) => !all.has(name))).toEqual([]);
  });

  it('stands nothing on sheets that have all names, nor on others', () => {
    expect(besidesOf({ kind: 'run', version: 3 }, named(run)).size).toBe(0);
    expect(besidesOf({ kind: 'batch', version: RUN_VERSION }, named(run)).size).toBe(0);
  });
});

it('names what is typed and what results: at most 135, and 16 more where tiles are read five times', () => {
  const count = (setup: (typeof runs)[number]['setup']) => runPlan(setup, 'run1').names.length;
  const [full, tiled] = [SETUPS['full-fields']!, SETUPS['tiled-everything']!];
  for (const setup of [full, { ...full, repeats: 5 }, tiled]) expect(count(setup)).toBeLessThanOrEqual(135);
  expect(count({ ...tiled, repeats: 5 }) - count(tiled)).toBe(16);
});

it('a name that was moved to the edge has nothing beside it', () => {
  expect([...besidesOf({ kind: 'run', version: RUN_VERSION }, new Map([['WhiteParts', 'B2:B9']]))]).toEqual([
    ['WhiteShares', 'C2:C9'],
  ]);
});
