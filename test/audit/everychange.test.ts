import { expect, it } from 'vitest';
import { checkSheet } from '../../src/audit/check/check';
import type { Finding } from '../../src/audit/check/finding';
import { verify } from '../../src/audit/seal/verify';
import { viewOf } from '../../src/audit/view';
import { cellsOf } from '../../src/sheets/address';
import type { BookSheet } from '../../src/sheets/book';
import { type Change, changesOf } from './changes';
import { sealed } from './sealing';
import { measured, smallest, withSheet } from './sheets';

/** Whether a finding of the check names the thing that was changed, and was not there before. */
function names({ key, what }: Change, { at, message, kind }: Finding): boolean {
  if (what === 'name') return message.includes(` ${key} `);
  if (what === 'protection') return kind === 'protection';
  return at !== undefined && cellsOf(at).includes(key);
}

it.each([
  { run: 'the smallest sheet, every change', book: smallest(), each: 1 },
  { run: 'tiled colours and all there is, every 80th change', book: measured(6), each: 80 },
])(
  'every change of one thing on a sealed sheet is found, with the right cell: $run',
  async ({ book: plain, each }) => {
    const book = await sealed(plain);
    const sheet = book.sheets[0]!;
    expect((await verify(book, sheet.name, { subtle: crypto.subtle })).state).toBe('holds');
    const before = new Set(checkSheet(viewOf(sheet)).map((finding) => JSON.stringify(finding)));
    const count: Record<string, { made: number; bySeal: number; byCheck: number }> = {};
    const missed: string[] = [];
    let at = 0;
    for (const change of changesOf(sheet)) {
      if (at++ % each !== 0) continue;
      count[change.what] ??= { made: 0, bySeal: 0, byCheck: 0 };
      const line = count[change.what]!;
      line.made++;
      const changed = withSheet(book, 0, () => change.sheet);
      const report = await verify(changed, sheet.name, { subtle: crypto.subtle });
      const inSeal = report.state === 'broken' && report.differences.some(({ key }) => key === change.key);
      const found = checkSheet(viewOf(change.sheet)).filter(
        (finding) => !before.has(JSON.stringify(finding)),
      );
      const inCheck = found.some((finding) => names(change, finding));
      if (inSeal) line.bySeal++;
      if (inCheck) line.byCheck++;
      if (!inSeal) missed.push(`seal: ${change.what} ${change.key}`);
      if (!inCheck && !isTypedAnew(change, sheet)) missed.push(`check: ${change.what} ${change.key}`);
    }
    console.table(count);
    expect(missed).toEqual([]);
  },
  240_000,
);

/** A check knows no earlier state: another typed value, or none, is as good as the first. */
function isTypedAnew({ what, key }: Change, { cells }: BookSheet): boolean {
  return ['value', 'removed', 'added'].includes(what) && cells[key]?.style?.locked === false;
}
