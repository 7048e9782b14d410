import { expect, it } from 'vitest';
import { checkSheet } from '../../src/audit/check/check';
import type { Finding } from '../../src/audit/check/finding';
import { verify } from '../../src/audit/seal/verify';
import { viewOf } from '../../src/audit/view';
import { cellsOf } from '../../src/sheets/address';
import { type Change, changesOf } from './changes';
import { sealed } from './sealing';
import { measured, withSheet } from './sheets';

/** Whether a finding of the check names the thing that was changed, and was not there before. */
function names({ key, what }: Change, { at, message, kind }: Finding): boolean {
  if (what === 'name') return message.includes(` ${key} `);
  if (what === 'protection') return kind === 'protection';
  return at !== undefined && cellsOf(at).includes(key);
}

it.each([3, 6])(
  'every change of one thing on a sealed sheet is found, with the right cell (run %i)',
  async (seed) => {
    const book = await sealed(measured(seed));
    const sheet = book.sheets[0]!;
    expect((await verify(book, sheet.name, { subtle: crypto.subtle })).state).toBe('holds');
    const before = new Set(checkSheet(viewOf(sheet)).map((finding) => JSON.stringify(finding)));
    const count: Record<string, { made: number; bySeal: number; byCheck: number }> = {};
    const missed: string[] = [];
    for (const change of changesOf(sheet)) {
      const line = (count[change.what] ??= { made: 0, bySeal: 0, byCheck: 0 });
      line.made++;
      const report = await verify(
        withSheet(book, 0, () => change.sheet),
        sheet.name,
        { subtle: crypto.subtle },
      );
      const inSeal = report.state === 'broken' && report.differences.some(({ key }) => key === change.key);
      const found = checkSheet(viewOf(change.sheet)).filter(
        (finding) => !before.has(JSON.stringify(finding)),
      );
      const inCheck = found.some((finding) => names(change, finding));
      if (inSeal) line.bySeal++;
      if (inCheck) line.byCheck++;
      if (!inSeal) missed.push(`seal: ${change.what} ${change.key}`);
      // A check knows no earlier state: another reading, label of one's own or lock of a typed cell is as good as the first.
      if (!inCheck && !['value', 'removed', 'added'].includes(change.what))
        missed.push(`check: ${change.what} ${change.key}`);
    }
    console.table(count);
    expect(missed).toEqual([]);
  },
  240_000,
);
