import { beforeAll, describe, expect, it } from 'vitest';
import { textNames, textOf } from '../../src/audit/seal/constant';
import { applyEdits } from '../../src/audit/seal/edits';
import { reopen } from '../../src/audit/seal/seal';
import { type Signer, thumbprint } from '../../src/audit/seal/sign';
import { verify } from '../../src/audit/seal/verify';
import type { Book, BookSheet } from '../../src/sheets/book';
import { newSigner, sealed } from './sealing';
import { measured, smallest, withSheet } from './sheets';

let mine: Signer<CryptoKey>;
let theirs: Signer<CryptoKey>;
beforeAll(async () => {
  [mine, theirs] = [await newSigner(), await newSigner()];
});

const check = (book: Book, at = 0, expectedKey = mine.publicKey) =>
  verify(book, book.sheets[at]!.name, { subtle: crypto.subtle, expectedKey });

/** The sheet with its stored seal rewritten. */
function rewritten(sheet: BookSheet, change: (text: string) => string): BookSheet {
  const text = textOf('LightSeal', sheet.names)!;
  const others = sheet.names.filter(({ name }) => !/^LightSeal(\.\d+)?$/.test(name));
  return { ...sheet, names: [...others, ...textNames('LightSeal', change(text))] };
}

describe('a signature', () => {
  it('is accepted with the right key, and names it', async () => {
    const report = await check(await sealed(smallest(), 0, { signer: mine }));
    expect(report).toMatchObject({ state: 'holds', signature: 'valid' });
    expect(report.signer).toBe(await thumbprint(crypto.subtle, mine.publicKey));
  });

  it('is refused with the wrong key', async () => {
    const report = await check(await sealed(smallest(), 0, { signer: theirs }));
    expect(report).toMatchObject({ state: 'broken', signature: 'refused' });
    expect(report.reasons.join()).toMatch(/another key/);
  });

  it('is missed where one was asked for', async () => {
    expect(await check(await sealed(smallest()))).toMatchObject({ state: 'broken', signature: 'refused' });
  });

  it('is refused when it, the key beside it or anything it covers was altered', async () => {
    const book = await sealed(smallest(), 0, { signer: mine });
    const flip = (text: string, from: number) =>
      text.slice(0, from) + (text[from] === 'A' ? 'B' : 'A') + text.slice(from + 1);
    const changes: ((text: string) => string)[] = [
      (text) => flip(text, text.length - 40),
      (text) => flip(text, text.length - 120),
      (text) => text.replace('A.%20Nobody', 'B.%20Nobody'),
      (text) => text.replace('2026-11-25', '2026-11-24'),
      (text) => text.replace(/\.[^.|]*$/, `.${'A'.repeat(86)}`),
    ];
    for (const change of changes) {
      const report = await check(withSheet(book, 0, (sheet) => rewritten(sheet, change)));
      expect([report.state, report.signature]).toEqual(['broken', 'refused']);
    }
  });

  it('does not travel with contents that were changed', async () => {
    const book = await sealed(smallest(), 0, { signer: mine });
    const at = Object.entries(book.sheets[0]!.cells).find(([, { value }]) => value === 702)![0];
    const changed = withSheet(book, 0, (s) => ({
      ...s,
      cells: { ...s.cells, [at]: { ...s.cells[at]!, value: 902 } },
    }));
    const report = await check(changed);
    expect(report.state).toBe('broken');
    expect(report.differences.map(({ key }) => key)).toEqual([at]);
  });

  it('is refused on a sheet that was swapped for another', async () => {
    let book = measured(1, 1);
    book = await sealed(await sealed(book, 0, { signer: mine }), 1, { signer: mine });
    const [first, second] = book.sheets;
    const seals = (sheet: BookSheet) => sheet.names.filter(({ name }) => /^LightSeal/.test(name));
    const bare = (sheet: BookSheet) => sheet.names.filter(({ name }) => !/^LightSeal/.test(name));
    const swapped = {
      ...book,
      sheets: [
        { ...first!, names: [...bare(first!), ...seals(second!)] },
        { ...second!, names: [...bare(second!), ...seals(first!)] },
      ],
    };
    for (const at of [0, 1]) {
      const report = await check(swapped, at);
      expect([report.state, report.signature]).toEqual(['broken', 'refused']);
      expect(report.reasons.join()).toMatch(/belongs to another sheet/);
    }
  });

  it('is refused when the sheet is replayed from another workbook', async () => {
    const other = await sealed(smallest(), 0, { signer: mine });
    const here = await sealed(measured(2), 0, { signer: mine });
    const replayed = { ...here, sheets: [...here.sheets, other.sheets[0]!] };
    const report = await check(replayed, 1);
    expect([report.state, report.signature]).toEqual(['broken', 'refused']);
    expect(report.reasons.join()).toMatch(/sealed in another workbook/);
  });

  it('is refused when an earlier state of the sheet is put back', async () => {
    const early = await sealed(smallest(), 0, { signer: mine });
    const answer = reopen(early, early.sheets[0]!.name, {
      who: 'B',
      when: '2026-11-26T08:00:00Z',
      why: 'read again',
    });
    if (!answer.ok) throw new Error(answer.why);
    const opened = applyEdits(early, answer.edits);
    const at = Object.entries(opened.sheets[0]!.cells).find(([, { value }]) => value === 702)![0];
    const corrected = withSheet(opened, 0, (s) => ({
      ...s,
      cells: { ...s.cells, [at]: { ...s.cells[at]!, value: 720 } },
    }));
    const late = await sealed(corrected, 0, { signer: mine, when: '2026-11-26T09:00:00Z' });
    for (const book of [opened, late]) {
      const report = await check({ ...book, sheets: early.sheets });
      expect([report.state, report.signature]).toEqual(['broken', 'refused']);
      expect(report.reasons.join()).toMatch(/older seal/);
    }
  });
});
