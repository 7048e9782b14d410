import { expect, test } from 'vitest';
import { addressOf, rectOf } from '../../src/sheets/address';
import type { BookSheet, Style } from '../../src/sheets/book';
import { realize } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { createPaneHost } from '../excel/host';
import { randomRun } from '../sheets/randomrun';

/** What "General" says, a style without a format says too. */
function looks({ format, ...style }: Style): Style {
  return format === undefined || format === 'General' ? style : { ...style, format };
}
function looksOf({ cells }: BookSheet): Record<string, Style> {
  return Object.fromEntries(Object.entries(cells).map(([at, { style }]) => [at, looks(style ?? {})]));
}
const byRange = <T extends { range: string }>(items: readonly T[]): T[] =>
  items
    .map((item) => ({ ...item, range: addressOf(rectOf(item.range)) }))
    .sort((a, b) => (a.range < b.range ? -1 : 1));

// The same plan goes into a file by another way, without any spreadsheet engine (`realize`): the two must agree.
test.each([1, 2, 3])(
  'run sheet %i, built by the add-in and saved, is the planned one cell by cell',
  async (seed) => {
    const { host, test } = await createPaneHost();
    const plan = runPlan(randomRun(seed).setup, `r${seed}`);
    const { sheet } = await host.build(plan);
    const { sheets } = await test.workbench.toBook();
    const saved = sheets.find(({ name }) => name === sheet)!;
    const planned = realize(plan, sheet);
    expect(looksOf(saved)).toEqual(looksOf(planned));
    expect([...saved.merges].sort()).toEqual([...planned.merges].sort());
    expect(byRange(saved.validations)).toEqual(byRange(planned.validations));
    expect(byRange(saved.scales)).toEqual(byRange(planned.scales));
    expect(byRange(saved.alerts)).toEqual(byRange(planned.alerts));
    for (const kept of ['columns', 'rows', 'isProtected', 'freeze', 'gridlines', 'print'] as const)
      expect(saved[kept], kept).toEqual(planned[kept]);
  },
);
