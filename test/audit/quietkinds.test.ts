import { beforeAll, describe, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { reportText } from '../../src/audit/check/text';
import { calculateBook } from '../../src/audit/formula/calculate';
import { sealText } from '../../src/audit/seal/text';
import { verify } from '../../src/audit/seal/verify';
import { ourSheets } from '../../src/audit/view';
import type { Book } from '../../src/sheets/book';
import { readXlsx, remarksOf, writeXlsx } from '../../src/xlsx';
import { cases } from '../tools/amount';
import { convert } from '../tools/libreoffice';
import { sheetWith } from '../xlsx/sample';
import { EXAMPLES, overviewOfGone, readyExample, wideCertificate, wideComparison } from './examples';
import { renamed } from './rename';
import { sealed } from './sealing';

/*
 * What must not raise an alarm on any kind of sheet, of the check and of the seal alike. All sheets of each
 * workbook are sealed first; the ready example has every kind linked to every other.
 */
const BOOKS: Readonly<Record<string, () => Book>> = {
  ...EXAMPLES,
  'overview of a sheet that is gone': overviewOfGone,
  'wide comparison': wideComparison,
  'wide certificate': wideCertificate,
  'ready example': readyExample,
};
const books = new Map<string, Book>();

/** Large, and made of what the others hold: saved and opened in the long run; the ready example every time in workbench/saved. */
const LARGE = ['wide comparison', 'wide certificate', 'ready example'];
const SAVED = cases(
  Object.keys(BOOKS).filter((kind) => !LARGE.includes(kind)),
  LARGE,
);

beforeAll(async () => {
  for (const [kind, make] of Object.entries(BOOKS)) {
    let book = make();
    for (const at of book.sheets.keys()) book = await sealed(book, at);
    books.set(kind, book);
  }
}, 120_000);

/** Errors and warnings of the check, and seals that do not hold, as text. */
async function alarms(book: Book): Promise<string> {
  const report = await check(book);
  const findings = report.findings.filter(({ severity }) => severity !== 'note');
  let text = findings.length === 0 ? '' : reportText({ ...report, findings });
  for (const { sheet } of ourSheets(book)) {
    const seal = await verify(book, sheet.name, { subtle: crypto.subtle });
    if (seal.state !== 'holds') text += sealText(seal);
  }
  return text;
}

const foreign = sheetWith({ name: 'Shopping list', cells: { A1: { value: 'milk' } } });

describe.each(Object.keys(BOOKS))('check and seal are quiet: %s', (kind) => {
  it('as built, and after recalculation', async () => {
    const book = books.get(kind)!;
    expect(await alarms(book)).toBe('');
    // Calculated anew it is the same book, letter by letter.
    expect(JSON.stringify(calculateBook(book)) === JSON.stringify(book)).toBe(true);
  });

  it('after moving all sheets and inserting a foreign one', async () => {
    const { sheets, ...rest } = books.get(kind)!;
    expect(await alarms({ ...rest, sheets: [...sheets.slice(1), foreign, sheets[0]!] })).toBe('');
  });

  it('after renaming all sheets, but for the tab that each seal names', async () => {
    const book = renamed(books.get(kind)!, (_, at) => `Anna's sheet ${at}`);
    const { findings } = await check(book);
    expect(findings.filter(({ severity, kind: what }) => severity !== 'note' && what !== 'seal')).toEqual([]);
    for (const { sheet } of ourSheets(book)) {
      const { differences } = await verify(book, sheet.name, { subtle: crypto.subtle });
      expect(differences.map(({ key }) => key)).toEqual(['tab']);
    }
  });
});

describe('saved and reopened', () => {
  it('by ourselves: every kind is quiet', async () => {
    for (const kind of SAVED) {
      expect(await alarms(await readXlsx(await writeXlsx(books.get(kind)!))), kind).toBe('');
    }
  }, 120_000);

  it('by LibreOffice: quiet, but for the add-in that was absent there', async () => {
    const saved = await convert(await Promise.all(SAVED.map((kind) => writeXlsx(books.get(kind)!))), 'xlsx');
    for (const [i, kind] of SAVED.entries()) {
      const book = await readXlsx(saved[i]!);
      // With what only the file tells: notes are kept letter by letter, and no link, comment or opened range comes in.
      const { findings } = await check(book, { file: remarksOf(saved[i]!) });
      expect(findings.filter(({ kind: what }) => what === 'seen')).toEqual([]);
      const others = findings.filter(
        ({ severity, kind: what, found }) =>
          severity !== 'note' && !(what === 'broken' && found === '#NAME?'),
      );
      expect(others, kind).toEqual([]);
      for (const { sheet } of ourSheets(book)) {
        const { state, differences } = await verify(book, sheet.name, { subtle: crypto.subtle });
        expect(
          differences.filter(({ isHost }) => !isHost),
          `${kind}, ${sheet.name}`,
        ).toEqual([]);
        expect(['holds', 'not calculated'], `${kind}, ${sheet.name}`).toContain(state);
      }
    }
  }, 240_000);
});
