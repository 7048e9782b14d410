import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { base64url, fromBase64url, hex, utf8 } from '../../src/audit/seal/bytes';
import { textNames, textOf } from '../../src/audit/seal/constant';
import { applyEdits } from '../../src/audit/seal/edits';
import { reopen, seal } from '../../src/audit/seal/seal';
import { STATEMENT, sealText } from '../../src/audit/seal/text';
import { verify } from '../../src/audit/seal/verify';
import { viewOf } from '../../src/audit/view';
import type { Book, BookCell, BookSheet, Style } from '../../src/sheets/book';
import { readXlsx, writeXlsx } from '../../src/xlsx';
import { convert } from '../tools/libreoffice';
import { sheetWith } from '../xlsx/sample';
import { sealed } from './sealing';
import { measured, smallest, withSheet } from './sheets';

const options = { subtle: crypto.subtle };
const state = async (book: Book, at = 0) => (await verify(book, book.sheets[at]!.name, options)).state;

function renamed(sheet: BookSheet, name: string): BookSheet {
  const names = sheet.names.map((each) => ({
    ...each,
    refersTo: each.refersTo.replace(/^='.*'!/, `='${name.replace(/'/g, "''")}'!`),
  }));
  return { ...sheet, name, names };
}

describe('a seal holds', () => {
  it('after renaming another, moving and inserting a foreign sheet', async () => {
    const book = await sealed(measured(1, 2), 1);
    const [first, second] = book.sheets;
    const foreign = sheetWith({ name: 'Shopping list', cells: { A1: { value: 'milk' } } });
    const moved = { ...book, sheets: [foreign, second!, renamed(first!, "Anna's run")] };
    expect(await state(moved, 1)).toBe('holds');
    expect(await state(moved, 2)).toBe('none');
  });

  it('not after its own renaming, of which the tab is named and nothing else', async () => {
    const book = await sealed(measured(1));
    const other = { ...book, sheets: [renamed(book.sheets[0]!, "Anna's run")] };
    const { state: now, differences } = await verify(other, "Anna's run", { subtle: crypto.subtle });
    expect([now, differences.map(({ group, key }) => [group, key])]).toEqual(['broken', [['sheet', 'tab']]]);
  });

  it('after saving and reopening', async () => {
    const book = await sealed(await sealed(measured(3, 4), 0), 1);
    const again = await readXlsx(await writeXlsx(book));
    expect([await state(again, 0), await state(again, 1)]).toEqual(['holds', 'holds']);
  });

  // LibreOffice knows no add-in: it recalculates every plain formula and cannot compute ours.
  it('through LibreOffice for all that was typed and built, and names what the add-in must compute again', async () => {
    let book = measured(1, 2, 3, 4, 5, 6);
    for (const at of book.sheets.keys()) book = await sealed(book, at);
    const [saved] = await convert([await writeXlsx(book)], 'xlsx');
    const again = await readXlsx(saved!);
    for (const { name } of again.sheets) {
      const report = await verify(again, name, options);
      expect(
        sealText({ ...report, differences: report.differences.filter(({ isHost }) => !isHost) }),
      ).toContain('the seal holds for all that was typed and built');
      expect(report.differences.every(({ group, isHost }) => group === 'result' && isHost)).toBe(true);
    }
  }, 120_000);

  it('where another program rounds a result to the other side', async () => {
    const book = measured(1);
    const [at] = Object.entries(book.sheets[0]!.cells).find(
      ([, { formula, value }]) => formula?.startsWith('=IF(COUNT(') && typeof value === 'number',
    )!;
    const holding = (value: number) =>
      withSheet(book, 0, (s) => ({ ...s, cells: { ...s.cells, [at]: { ...s.cells[at]!, value } } }));
    const first = await sealed(holding(1234.56785));
    const other = withSheet(first, 0, (s) => ({
      ...s,
      cells: { ...s.cells, [at]: { ...s.cells[at]!, value: 1234.5678499999999 } },
    }));
    expect(await state(other)).toBe('holds');
  });
});

describe('a seal', () => {
  it('is refused where there is one already, and on sheets that are not ours', async () => {
    const book = await sealed(measured(1));
    const request = { who: '', when: '2026-01-01T00:00:00Z', program: '0', newId: () => 'x1', ...options };
    expect(await seal(book, book.sheets[0]!.name, request)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/sealed already/),
    });
    expect(await seal(book, 'Nowhere', request)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/not one of our sheets/),
    });
  });

  it('is taken off with a record of who, when and why, and the next one counts on', async () => {
    const once = await sealed(smallest());
    const name = once.sheets[0]!.name;
    const answer = reopen(once, name, {
      who: 'B. Nobody',
      when: '2026-11-26T08:00:00Z',
      why: 'typing error | in ~ B30',
    });
    if (!answer.ok) throw new Error(answer.why);
    const opened = applyEdits(once, answer.edits);
    expect(await state(opened)).toBe('none');
    const twice = await sealed(opened, 0, { when: '2026-11-26T09:00:00Z' });
    const { record, history, state: now } = await verify(twice, name, options);
    expect(now).toBe('holds');
    expect(record?.sequence).toBe(2);
    expect(history.map(({ what, who, why }) => [what, who, why])).toEqual([
      ['sealed', 'A. Nobody', ''],
      ['reopened', 'B. Nobody', 'typing error | in ~ B30'],
      ['sealed', 'A. Nobody', ''],
    ]);
  });

  it('that was damaged and then reopened is not said to have been deleted', async () => {
    const book = await sealed(smallest());
    const name = book.sheets[0]!.name;
    const damaged = withSheet(book, 0, (s) => ({
      ...s,
      names: s.names.map((each) => (each.name === 'LightSeal' ? { ...each, refersTo: '="nonsense"' } : each)),
    }));
    expect(await state(damaged)).toBe('unreadable');
    const answer = reopen(damaged, name, { who: 'B. Nobody', when: '2026-11-26T08:00:00Z', why: 'damaged' });
    if (!answer.ok) throw new Error(answer.why);
    const opened = applyEdits(damaged, answer.edits);
    expect(await verify(opened, name, options)).toMatchObject({ state: 'none', reasons: [] });
    // The next seal counts on.
    expect((await verify(await sealed(opened), name, options)).record?.sequence).toBe(2);
  });

  it('tells the contents of a changed cell, and its format, lock or look where those alone were changed', async () => {
    const book = await sealed(smallest());
    const name = book.sheets[0]!.name;
    const at = viewOf(book.sheets[0]!).places.get('whitereadings')!.address.split(':')[0]!;
    const now = async (change: (cell: BookCell) => BookCell) => {
      const changed = withSheet(book, 0, (s) => ({
        ...s,
        cells: { ...s.cells, [at]: change(s.cells[at]!) },
      }));
      const { differences } = await verify(changed, name, options);
      return differences.find(({ key, group }) => key === at && group === 'cell')?.now;
    };
    const styled = (cell: BookCell, style: Style): BookCell => ({
      ...cell,
      style: { ...cell.style, ...style },
    });
    expect(await now((cell) => ({ ...cell, value: 1999 }))).toBe('1999');
    expect(await now((cell) => styled(cell, { format: '0.000' }))).toBe('number format 0.000');
    expect(await now((cell) => styled(cell, { locked: true, color: '#ff0000' }))).toMatch(
      /^lock locked, look #FF0000 on /,
    );
    // Both: which was which no mark tells.
    expect(await now((cell) => styled({ ...cell, value: 1999 }, { format: '0.000' }))).toMatch(
      /^1999, 0\.000, open, #/,
    );
  });

  it('that was simply deleted is missed', async () => {
    const book = await sealed(smallest());
    const bare = withSheet(book, 0, (s) => ({
      ...s,
      names: s.names.filter(({ name }) => !/^LightSeal/.test(name)),
    }));
    const report = await verify(bare, bare.sheets[0]!.name, options);
    expect(report.state).toBe('deleted');
    expect(report.reasons[0]).toMatch(/deleted, not reopened/);
  });

  it('gives a copied sheet a mark of its own', async () => {
    const book = await sealed(smallest());
    const name = book.sheets[0]!.name;
    const answer = reopen(book, name, { who: '', when: '2026-11-26T08:00:00Z', why: '' });
    if (!answer.ok) throw new Error(answer.why);
    const opened = applyEdits(book, answer.edits);
    const two = { ...opened, sheets: [opened.sheets[0]!, renamed(opened.sheets[0]!, 'Copy')] };
    const both = await sealed(await sealed(two, 1), 0);
    expect([await state(both, 0), await state(both, 1)]).toEqual(['holds', 'holds']);
  });

  it.each([
    ['cut short', (text: string) => text.slice(0, 300)],
    ['another hash', (text: string) => text.replace(/[0-9a-f]{64}/, '0'.repeat(64))],
    ['no seal at all', () => 'light-seal|1|nonsense'],
    ['of a later version', (text: string) => text.replace('light-seal|2|', 'light-seal|3|')],
  ])('that was tampered with does not hold: %s', async (_, change) => {
    const book = await sealed(smallest());
    const tampered = withSheet(book, 0, (s) => ({
      ...s,
      names: [
        ...s.names.filter(({ name }) => !/^LightSeal(\.\d+)?$/.test(name)),
        ...textNames('LightSeal', change(textOf('LightSeal', s.names)!)),
      ],
    }));
    expect(['broken', 'unreadable']).toContain(await state(tampered));
  });

  it('keeps to what Excel takes in names: 255 characters a text, 8192 a formula', async () => {
    const book = await sealed(measured(6));
    const kept = [...book.names, ...book.sheets[0]!.names].filter(({ name }) => name.startsWith('Light'));
    expect(kept.length).toBeGreaterThan(4);
    for (const { refersTo } of kept) {
      expect(refersTo.length).toBeLessThanOrEqual(8192);
      for (const [, piece] of refersTo.matchAll(/"((?:[^"]|"")*)"/g))
        expect(piece!.length).toBeLessThanOrEqual(255);
    }
  });

  it('says what it proves and what not', () => {
    expect(STATEMENT).toMatch(/does not show that the readings were ever seen on a meter/);
    expect(STATEMENT).toMatch(/Anyone who can change the file can also remove a seal/);
  });
});

describe('bytes', () => {
  const TEXTS = ['', 'abc', 'Maß 3 × 3 ≥ 80 %', '𝄞 and 漢字', 'half \uD800 pair'];
  // Expected: Node's own encoder and digest (WHATWG Encoding, FIPS 180-4 through OpenSSL).
  it.each(TEXTS)('UTF-8, SHA-256 and base64url of "%s" are those of Node', async (text) => {
    const theirs = new TextEncoder().encode(text);
    expect(utf8(text)).toEqual(theirs);
    expect(hex(new Uint8Array(await crypto.subtle.digest('SHA-256', utf8(text))))).toBe(
      createHash('sha256').update(theirs).digest('hex'),
    );
    expect(base64url(theirs)).toBe(Buffer.from(theirs).toString('base64url'));
    expect(fromBase64url(base64url(theirs))).toEqual(theirs);
  });
});
