import { beforeAll, expect, it } from 'vitest';
import type { Host } from '../../src/excel/host';
import { addressOf, cellsOf, rectOf } from '../../src/sheets/address';
import { batchPlan } from '../../src/sheets/batch';
import type { Book, BookCell, BookSheet } from '../../src/sheets/book';
import type { Plan } from '../../src/sheets/plan';
import { realize } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { counting } from '../bench/counting';
import { batchSetup } from '../sheets/batchcases';
import { SETUPS } from '../sheets/setups';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

/*
 * What goes over the bridge is made short: looks and formulas that repeat are copied by the host, merges of several
 * rows are one. The sheet must be the one that a file of the same plan holds, cell by cell.
 */
let host: Host;
let test: TestHost;
let counted: ReturnType<typeof counting>;
beforeAll(async () => {
  ({ host, test } = await createPaneHost());
  counted = counting(test);
});

const PLANS: Readonly<Record<string, Plan>> = {
  ...Object.fromEntries(Object.entries(SETUPS).map(([name, setup]) => [name, runPlan(setup, 'p1')])),
  batch: batchPlan(batchSetup({ lines: 12 }), 'p2'),
};

/** What a plan says of a cell; results come from calculating, "General" is no format and an empty text is nothing. */
function planned({ formula, value, style = {} }: BookCell) {
  const { format, ...look } = style;
  return {
    ...(formula === undefined ? { value: value === '' ? null : value } : { formula }),
    style: { ...look, ...(format === undefined || format === 'General' ? {} : { format }) },
  };
}

it.each(Object.keys(PLANS))('%s stands as planned', async (name) => {
  const plan = PLANS[name]!;
  let sheet = '';
  const { requests, actions } = await counted.during(async () => {
    ({ sheet } = await host.build(plan));
  });
  // Regression: what the fullest run took when this was written and a little more, in bytes and actions.
  if (plan.kind === 'run') {
    expect(requests).toBeLessThan(357_000);
    expect(actions).toBeLessThan(1_400);
  }
  const built = sheetOf(await test.workbench.toBook(), sheet);
  const expected = realize(plan, sheet);
  const spilled = new Set(
    Object.entries(built.cells).flatMap(([at, { spill }]) =>
      spill ? cellsOf(spill).filter((cell) => cell !== at) : [],
    ),
  );
  for (const at of new Set([...Object.keys(expected.cells), ...Object.keys(built.cells)])) {
    if (spilled.has(at)) continue;
    const [own, wanted] = [built.cells[at] ?? EMPTY, expected.cells[at] ?? EMPTY];
    expect({ at, ...planned(own) }).toEqual({ at, ...planned(wanted) });
  }
  expect([...built.merges].sort()).toEqual([...expected.merges].sort());
  expect([...built.names].sort(byName)).toEqual([...expected.names].sort(byName));
  expect(built.validations).toEqual(
    expected.validations.map((rule) => ({ ...rule, range: addressOf(rectOf(rule.range)) })),
  );
  expect(built.rows).toEqual(expected.rows);
  expect(Object.keys(built.columns)).toEqual(Object.keys(expected.columns));
});

const EMPTY: BookCell = { value: null };
const byName = (a: { name: string }, b: { name: string }) => (a.name < b.name ? -1 : 1);

function sheetOf({ sheets }: Book, name: string): BookSheet {
  return sheets.find((sheet) => sheet.name === name)!;
}
