import { expect, it } from 'vitest';
import type { Book } from '../../src/sheets/book';
import { bookOf } from '../../src/sheets/realize';
import { runResults } from '../../src/sheets/run';
import { uncertaintyResults } from '../../src/sheets/run/verdict';
import { writeXlsx } from '../../src/xlsx/write';
import { amount } from '../tools/amount';
import { recalculate } from '../tools/libreoffice';
import { byModel, rivalsOf } from './bymodel';
import { rangeNamed } from './named';
import { byFunctions, filled, type RandomRun, randomRun } from './randomrun';

/*
 * The independent opinion: LibreOffice Calc recalculates every plain formula of invented runs (20, in the
 * long run 200) from the readings alone (the files store no result but one, a lie), and each must equal what the custom functions say;
 * budgets and decisions are held against the uncertainty model.
 */
const RUNS = Array.from({ length: amount(20, 200) }, (_, i) => randomRun(i + 1));
const PER_FILE = 20;
/** Quantiles of two programs agree to 1e-8, all else to 1e-9. */
const toleranceOf = (name: string) => (/(K|Expanded|Probability)$/.test(name) ? 1e-8 : 1e-9);

/** The proof that it recalculates at all: one result is stored in the file as 999 and must come back right. */
function withLie(book: Book, run: RandomRun): Book {
  const at = rangeNamed(run.plan, 'WhiteLightOutputPlain');
  const [first, ...others] = book.sheets;
  const cells = { ...first!.cells, [at]: { ...first!.cells[at]!, value: 999 } };
  return { ...book, sheets: [{ ...first!, cells }, ...others] };
}

it('every plain formula of many runs, recalculated by LibreOffice, equals the function', async () => {
  const files: Uint8Array[] = [];
  for (let i = 0; i < RUNS.length; i += PER_FILE) {
    const book = bookOf(RUNS.slice(i, i + PER_FILE).map(filled));
    files.push(await writeXlsx(i === 0 ? withLie(book, RUNS[0]!) : book, { cachedValues: true }));
  }
  const books = await recalculate(files, 480_000);
  const differences: string[] = [];
  let compared = 0;
  const counts = new Set<number>();
  const numbers: Record<string, number> = {};
  RUNS.forEach((run, i) => {
    const sheet = books[Math.floor(i / PER_FILE)]!.sheets[i % PER_FILE]!;
    const functions = byFunctions(run);
    const expected: Record<string, number | string> = { ...functions, ...byModel(run, functions) };
    const rivals = sheet.cells[rangeNamed(run.plan, 'RivalPoints')]?.value;
    if (rivals !== rivalsOf(run))
      differences.push(`run ${i + 1} RivalPoints: ${rivals} for ${rivalsOf(run)}`);
    counts.add(rivalsOf(run));
    const results = [...runResults(run.setup), ...uncertaintyResults(run.setup)];
    expect(Object.keys(expected).sort()).toEqual(results.map(({ name }) => name).sort());
    for (const { name } of results) {
      const at = rangeNamed(run.plan, `${name}Plain`);
      const came = sheet.cells[at]?.value;
      const want = expected[name]!;
      const equal =
        typeof want === 'number'
          ? typeof came === 'number' && Math.abs(came - want) <= toleranceOf(name) * Math.abs(want) + 1e-12
          : came === want;
      compared++;
      const id = name.replace(/Expanded$/, '');
      if (id !== name && typeof came === 'number') numbers[id] = (numbers[id] ?? 0) + 1;
      if (!equal) differences.push(`run ${i + 1} ${name} (${at}): ${JSON.stringify(came)} for ${want}`);
    }
  });
  expect(differences).toEqual([]);
  expect(compared).toBeGreaterThan(RUNS.length * 40);
  // Some runs have no rivals, others several.
  expect(counts.size).toBeGreaterThan(2);
  // Contrasts are often bounds only; enough of them must be numbers.
  for (const id of ['Uniformity', 'Contrast', 'Board'])
    expect(numbers[id], id).toBeGreaterThan(RUNS.length / 10);
}, 600_000);
