import { beforeAll, expect, it } from 'vitest';
import type { Book } from '../../src/sheets/book';
import { bookOf } from '../../src/sheets/realize';
import { writeXlsx } from '../../src/xlsx';
import { EXAMPLES } from '../audit/examples';
import { recalculate } from '../tools/libreoffice';
import { filled, randomRun } from './randomrun';

/*
 * A spreadsheet program joins a number into a text as its person writes numbers: "16,1" in much of the world. What our
 * sheets say must be the same everywhere, or a check of one would call the other's results altered. Both columns are
 * LibreOffice's.
 */
const RUNS = [1, 2, 3].map((seed) => {
  const run = randomRun(seed);
  return [`run ${seed}`, () => bookOf([filled(run)])] as const;
});
const BOOKS: Readonly<Record<string, () => Book>> = { ...Object.fromEntries(RUNS), ...EXAMPLES };

let dots: readonly Book[];
let commas: readonly Book[];
beforeAll(async () => {
  const files = await Promise.all(
    Object.values(BOOKS).map((make) => writeXlsx(make(), { cachedValues: false })),
  );
  dots = await recalculate(files, 500_000, 'en-US');
  commas = await recalculate(files, 500_000, 'de-DE');
}, 1_200_000);

/** The texts that formulas give, by sheet and cell. */
function texts({ sheets }: Book): Record<string, string> {
  return Object.fromEntries(
    sheets.flatMap(({ name, cells }) =>
      Object.entries(cells).flatMap(([at, { value, formula }]) =>
        formula !== undefined && typeof value === 'string' ? [[`${name} ${at}`, value]] : [],
      ),
    ),
  );
}

it.each(Object.keys(BOOKS).map((name, i) => [name, i] as const))(
  'says the same where a comma stands before decimals: %s',
  (_, i) => {
    const [dotted, comma] = [texts(dots[i]!), texts(commas[i]!)];
    expect(comma).toEqual(dotted);
  },
);

it('texts are there to be compared', () => {
  expect(dots.flatMap((book) => Object.keys(texts(book))).length).toBeGreaterThan(1000);
});
