import { expect, it } from 'vitest';
import { verify } from '../../src/audit/seal/verify';
import type { Book } from '../../src/sheets/book';
import { amount } from '../tools/amount';
import { type Change, changesOf } from './changes';
import { batch, EXAMPLES } from './examples';
import { sealed } from './sealing';
import { measured, smallest } from './sheets';
import { grouped, isTypedAnew, Trial } from './trial';

const CASES: readonly (readonly [kind: string, make: () => Book, each: number])[] = [
  ['run, the smallest', smallest, amount(4, 1)],
  ['run, tiled colours and all there is, every 20th change', () => measured(6), 20],
  ['batch of 20 units, every 7th change', () => batch(20), 7],
  ...Object.entries(EXAMPLES).map(([kind, make]) => [kind, make, amount(4, 1)] as const),
];

/** Every so many of each kind of change. */
function some(changes: readonly Change[], each: number): Change[] {
  const met = new Map<string, number>();
  return changes.filter(({ what }) => {
    const before = met.get(what) ?? 0;
    met.set(what, before + 1);
    return before % each === 0;
  });
}

it.each(CASES)(
  'every change of one thing on a sealed sheet is found, with the right cell: %s',
  async (_, make, each) => {
    const plain = make();
    const place = plain.sheets.length - 1;
    const book = await sealed(plain, place);
    const sheet = book.sheets[place]!;
    expect((await verify(book, sheet.name, { subtle: crypto.subtle })).state).toBe('holds');
    const trial = new Trial(book, place);
    const all = [...changesOf(sheet)];
    expect(all.length).toBeGreaterThan(100);
    const changes = some(all, each);
    const count: Record<string, { made: number; bySeal: number; byCheck: number; typed: number }> = {};
    for (const change of changes) {
      count[change.what] ??= { made: 0, bySeal: 0, byCheck: 0, typed: 0 };
      const line = count[change.what]!;
      line.made++;
      line.bySeal++;
      if (isTypedAnew(change, sheet)) line.typed++;
      else line.byCheck++;
    }
    const missed: string[] = [];
    for (const group of grouped(changes, sheet)) {
      const { seal, check } = await trial.missed(group);
      for (const { what, key } of seal) {
        count[what]!.bySeal--;
        missed.push(`seal: ${what} ${key}`);
      }
      for (const { what, key } of check) {
        count[what]!.byCheck--;
        missed.push(`check: ${what} ${key}`);
      }
    }
    console.table(count);
    expect(missed).toEqual([]);
  },
  240_000,
);
