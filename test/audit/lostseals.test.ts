import { beforeAll, describe, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { answerOf, reportText } from '../../src/audit/check/text';
import { applyEdits } from '../../src/audit/seal/edits';
import { lostSeals } from '../../src/audit/seal/lost';
import { reopen } from '../../src/audit/seal/seal';
import { sealText } from '../../src/audit/seal/text';
import { verify } from '../../src/audit/seal/verify';
import type { Book, BookCell } from '../../src/sheets/book';
import { amount } from '../tools/amount';
import { sealed } from './sealing';
import { measured } from './sheets';

const options = { subtle: crypto.subtle };
let book: Book;
beforeAll(async () => {
  book = await sealed(await sealed(measured(1, 2), 0), 1);
});

/** Errors of the whole check that are about the workbook itself. */
const errors = async (of: Book) =>
  (await check(of)).findings.filter(({ kind, severity }) => kind === 'seal' && severity === 'error');

describe('a seal that has lost its sheet', () => {
  it('is told where the sheet was deleted, and only there', async () => {
    expect(lostSeals(book)).toEqual([]);
    const without = { ...book, sheets: book.sheets.slice(1) };
    expect(lostSeals(without)).toEqual([
      expect.stringMatching(
        /^The workbook remembers seal 1 of a sheet with the mark \w+, and no sheet bears it/,
      ),
    ]);
    expect(await errors(without)).toHaveLength(1);
    expect(await errors(book)).toHaveLength(0);
  });

  it('is told where another sheet was copied over it', () => {
    const [first, second] = book.sheets;
    const over = { ...book, sheets: [first!, { ...first!, name: second!.name }] };
    expect(lostSeals(over)).toHaveLength(2);
    expect(lostSeals(over)[0]).toMatch(/could be that of “.*” or “.*”: each bears the mark/);
  });

  it('is told where the mark of the sheet was taken away', () => {
    const [first, second] = book.sheets;
    const names = first!.names.filter(({ name }) => name !== 'LightSheet');
    expect(lostSeals({ ...book, sheets: [{ ...first!, names }, second!] })).toHaveLength(1);
  });

  it('is told where the register itself was altered', () => {
    const names = book.names.map((each) =>
      /register/i.test(each.name) ? { ...each, refersTo: '="light-register|1|x"' } : each,
    );
    expect(names).not.toEqual(book.names);
    expect(lostSeals({ ...book, names })[0]).toMatch(/register of seals is damaged/);
  });
});

/** A copy of a sealed book with cells changed as somebody would in the file. */
function withCells(change: (at: string, cell: BookCell) => BookCell): Book {
  const [first, ...others] = book.sheets;
  const cells = Object.fromEntries(Object.entries(first!.cells).map(([at, cell]) => [at, change(at, cell)]));
  return { ...book, sheets: [{ ...first!, cells }, ...others] };
}

describe('a result excused because the add-in was absent', () => {
  const isOurs = ({ formula }: BookCell) => /LIGHT\./.test(formula ?? '');
  const absent = (cell: BookCell): BookCell => ({ ...cell, value: { error: '#NAME?' } });

  it('lacks visibly', async () => {
    const lacking = withCells((_, cell) => (isOurs(cell) ? absent(cell) : cell));
    const report = await verify(lacking, lacking.sheets[0]!.name, options);
    expect(sealText(report)).toContain('results lack because the add-in was absent');
  });

  it('is no excuse for a number or a verdict put in place of another', async () => {
    const name = book.sheets[0]!.name;
    const lacking = withCells((_, cell) => (isOurs(cell) ? absent(cell) : cell));
    const excused = (await verify(lacking, name, options)).differences.map(({ key }) => key);
    expect(excused.length).toBeGreaterThan(10);
    const some = excused.filter((_, i) => i % amount(4, 1) === 0);
    for (const value of [3999, 'pass']) {
      for (const key of some) {
        if (book.sheets[0]!.cells[key]?.value === value) continue;
        const changed = withCells((at, cell) =>
          at === key ? { ...cell, value } : isOurs(cell) ? absent(cell) : cell,
        );
        const report = await verify(changed, name, options);
        expect(report.state, `${key} = ${value}`).toBe('broken');
      }
    }
  });
});

/** The first sheet without its seal and its history, as if it had never had one. */
function withoutSeal(of: Book): Book {
  const [first, ...others] = of.sheets;
  const names = first!.names.filter(({ name }) => !/^LightSeal/.test(name));
  return { ...of, sheets: [{ ...first!, names }, ...others] };
}

describe('a seal that was deleted while the workbook remembers it', () => {
  it('is an error of the check, before everything else, whether or not seals are compared', async () => {
    const bare = withoutSeal(book);
    const name = bare.sheets[0]!.name;
    for (const more of [{}, options, { isPart: true, sheets: [name] }]) {
      const { findings } = await check(bare, more);
      expect(findings[0]).toMatchObject({ sheet: name, kind: 'seal', severity: 'error' });
      expect(findings[0]!.message).toMatch(/^The seal of “.*” is gone\. .* it was deleted, not reopened\.$/);
      expect(answerOf(await check(bare, more))).toMatch(/^No: 1 error/);
    }
    expect(await verify(bare, name, options)).toMatchObject({ state: 'deleted' });
    expect(await verify(bare, bare.sheets[1]!.name, options)).toMatchObject({ state: 'holds' });
  });

  it('is said of the workbook where another sheet is looked at, and there alone', async () => {
    const bare = withoutSeal(book);
    const report = await check(bare, { sheets: [bare.sheets[1]!.name] });
    const seals = report.findings.filter(({ kind }) => kind === 'seal');
    expect(seals.map(({ sheet, severity }) => [sheet, severity])).toEqual([['', 'error']]);
    expect(reportText(report)).toContain(`The seal of “${bare.sheets[0]!.name}” is gone.`);
    const part = await check(bare, { sheets: [bare.sheets[1]!.name], isPart: true });
    expect(part.findings.filter(({ kind }) => kind === 'seal')).toEqual([]);
  });

  it('is found where the whole sheet was replaced by a fresh one that was given its mark', async () => {
    const [first, second] = book.sheets;
    const fresh = measured(1, 2).sheets[0]!;
    expect(fresh.names.some(({ name }) => /^LightSeal/.test(name))).toBe(false);
    const over = { ...book, sheets: [{ ...fresh, name: first!.name }, second!] };
    expect((await check(over)).findings[0]).toMatchObject({ sheet: first!.name, kind: 'seal' });
  });

  it('is told where seals and register were deleted and the mark of the workbook was left', async () => {
    const names = book.names.filter(({ name }) => !/register/i.test(name));
    const bare = withoutSeal({ ...book, names });
    expect(lostSeals(bare)).toEqual([expect.stringMatching(/its register of seals is gone/)]);
    expect(await errors(bare)).toHaveLength(1);
    // Without that mark nothing tells it from a workbook that was never sealed.
    expect(lostSeals({ ...bare, names: [] })).toEqual([]);
  });

  it('is not said of a sheet that was opened again, nor of a copy beside the sheet that bears it', async () => {
    const name = book.sheets[0]!.name;
    const answer = reopen(book, name, { who: 'A. Nobody', why: 'read again', when: '2026-11-29T08:00:00Z' });
    if (!answer.ok) throw new Error(answer.why);
    const open = applyEdits(book, answer.edits);
    expect(await verify(open, name, options)).toMatchObject({ state: 'none', reasons: [] });
    expect(await errors(open)).toEqual([]);
    // The register did not hear of the opening: the sheet has its own word for it.
    const halfway = { ...open, names: book.names };
    expect(await verify(halfway, name, options)).toMatchObject({
      state: 'deleted',
      reasons: [expect.stringMatching(/says that it was opened again/)],
    });
    const copy = { ...withoutSeal(book).sheets[0]!, name: 'Copy' };
    expect(await verify({ ...book, sheets: [...book.sheets, copy] }, 'Copy', options)).toMatchObject({
      state: 'none',
    });
  });
});

it('a sheet that was opened again may go', async () => {
  const [name] = book.sheets.map((sheet) => sheet.name);
  const answer = reopen(book, name!, {
    who: 'A. Nobody (invented)',
    why: 'read again',
    when: '2026-11-29T08:00:00Z',
  });
  if (!answer.ok) throw new Error(answer.why);
  const open = applyEdits(book, answer.edits);
  expect(lostSeals({ ...open, sheets: open.sheets.slice(1) })).toEqual([]);
});
