import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { reportText } from '../../src/audit/check/text';
import { resultsOf } from '../../src/audit/results';
import { verify } from '../../src/audit/seal/verify';
import { ourSheets } from '../../src/audit/view';
import { Failure } from '../../src/cli/failure';
import { readReadings } from '../../src/cli/readings';
import { isRefusal } from '../../src/csv/table';
import { readTemplate } from '../../src/template/read';
import { readXlsx, remarksOf, writeXlsx, XlsxError } from '../../src/xlsx';
import { readOffers } from '../../taskpane/offers/table';
import { HOSTILE } from '../csv/hostile';
import { FULL, SMALL } from '../template/examples';
import { amount } from '../tools/amount';
import { sealed } from './sealing';
import { smallest } from './sheets';

/*
 * Files, templates and tables as a stranger could write them: good ones with one thing in them altered, at random. Each
 * is read, or refused in words; whatever is read is checked, compared with its seal and asked for its results, and
 * nothing falls over. `npm run test:long` takes 10 000, the suite a few.
 */
const TRIES = amount(30, 10_000);
/** So many at a time, each turn with a seed of its own: one that fails is found again without those before it. */
const TURN = Math.min(TRIES, 250);
const TURNS = Array.from({ length: TRIES / TURN }, (_, turn) => turn);
/** Longer words are for nobody; a cell holds 32 767 characters. */
const WORDS = 32_767;

let random = generator(20261129);
beforeEach(({ task }) => {
  random = generator(20261129 + Number(/\d+$/.exec(task.name)?.[0] ?? 0));
});
/** Mulberry32; from memory. */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}
const one = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;

/** What goes in the place of a value. */
const VALUES = [
  '',
  '0',
  '-1',
  '1e999',
  '99999999999999999999',
  'NaN',
  'A1:XFD1048576',
  'XFE1',
  "'../../x'!A1",
  'rId999',
  '&amp;#0;',
  'true',
  '\u{1F4A9}',
  '\u202e',
  ...HOSTILE.map((text) => text.replace(/[<>&"]/g, '')),
];

/** One thing of an XML text altered: a value, an element doubled, taken away, moved, or in a foreign namespace. */
function alteredXml(xml: string): string {
  const parts = [...xml.matchAll(/="([^"]*)"|>([^<>]+)<|<(\w+)[^<>]*\/>|<(\w+)[^<>]*>[^<>]*<\/\4>/g)];
  if (parts.length === 0) return `${xml}<x/>`;
  const part = one(parts);
  const put = (text: string) => xml.slice(0, part.index) + text + xml.slice(part.index + part[0].length);
  if (part[1] !== undefined) return put(`="${one(VALUES)}"`);
  if (part[2] !== undefined) return put(`>${one(VALUES)}<`);
  const tag = part[3] ?? part[4]!;
  return put(
    one([
      '',
      part[0] + part[0],
      `<zz:${tag} xmlns:zz="urn:other"/>`,
      `<!-- ${tag} -->`,
      `<${tag}>${part[0]}</${tag}>`,
      part[0].replace(/\d+/, one(VALUES)),
    ]),
  );
}

/** One thing of a JSON text altered. */
function alteredJson(text: string): string {
  const parts = [...text.matchAll(/"[^"]*"|-?\d+(?:\.\d+)?|true|false|null|[{}[\],:]/g)];
  // Half of the changes are made where values stand.
  const isValue = (index: number) => /:\s*$/.test(text.slice(Math.max(0, index - 3), index));
  const part = one(random() < 0.5 ? parts.filter(({ index }) => isValue(index)) : parts);
  const put = one([
    '',
    'null',
    '-1',
    '1e999',
    '[]',
    '{}',
    '"=1+1"',
    `"${'x'.repeat(5000)}"`,
    '"__proto__"',
    part[0] + part[0],
  ]);
  return text.slice(0, part.index) + put + text.slice(part.index + part[0].length);
}

/** One cell of a table altered, or its marks. */
function alteredTable(text: string): string {
  const at = Math.floor(random() * text.length);
  const put = one([
    ...HOSTILE,
    ...VALUES,
    ...['1', '5', ' ', '1', '5', ' ', '1', '5'],
    '"',
    '\n',
    ';',
    ',',
    '\t',
    '\u0000',
    '9'.repeat(400),
  ]);
  return text.slice(0, at) + put + text.slice(at + Math.floor(random() * 6));
}

const table: Record<string, { tries: number; refused: number; read: number }> = {};
afterAll(() => console.table(table));
function note(what: string, outcome: 'refused' | 'read'): void {
  table[what] ??= { tries: 0, refused: 0, read: 0 };
  table[what].tries++;
  table[what][outcome]++;
}
/** Words that a person gets: there are some, and not without end. */
function inWords(text: string): void {
  expect(text.length).toBeGreaterThan(10);
  expect(text.length).toBeLessThan(WORDS);
}

let parts: Record<string, Uint8Array>;
beforeAll(async () => {
  parts = unzipSync(await writeXlsx(await sealed(smallest())));
});

it.each(TURNS)(
  `reads or refuses ${TURN} workbooks with one thing altered, and judges what it reads: %i`,
  async () => {
    const paths = Object.keys(parts).filter((path) => /\.(?:xml|rels)$/.test(path));
    // Half of the changes are made where cells and names stand.
    const weighty = paths.filter((path) => /sheet1\.xml$|workbook\.xml$/.test(path));
    for (let i = 0; i < TURN; i++) {
      const path = one(random() < 0.5 ? weighty : paths);
      const bytes = zipSync({ ...parts, [path]: strToU8(alteredXml(strFromU8(parts[path]!))) }, { level: 1 });
      const book = await readXlsx(bytes).catch((error: unknown) => {
        if (!(error instanceof XlsxError)) throw error;
        inWords(`${error.message} ${error.remedy}`);
        return undefined;
      });
      note('workbooks', book ? 'read' : 'refused');
      if (!book) continue;
      for (const view of ourSheets(book)) {
        const found = resultsOf(view, book);
        for (const { value } of found.known ? found.results : [])
          if (typeof value === 'number') expect(Number.isFinite(value), path).toBe(true);
        const { reasons } = await verify(book, view.sheet.name, { subtle: crypto.subtle });
        for (const reason of reasons) inWords(reason);
      }
      const report = await check(book, { file: remarksOf(bytes), subtle: crypto.subtle });
      for (const { message } of report.findings) inWords(message);
      expect(reportText(report).length).toBeGreaterThan(10);
    }
  },
  600_000,
);

it.each(TURNS)(
  `reads or refuses ${TURN} templates with one thing altered: %i`,
  () => {
    const good = [SMALL, FULL].map((example) => JSON.stringify(example));
    for (let i = 0; i < TURN; i++) {
      const found = readTemplate(alteredJson(one(good)));
      note('templates', found.ok ? 'read' : 'refused');
      if (!found.ok) {
        expect(found.problems.length).toBeGreaterThan(0);
        for (const problem of found.problems) inWords(problem);
      } else expect(JSON.stringify(found.template)).not.toMatch(/null,null|Infinity|NaN/);
    }
  },
  600_000,
);

const READINGS = `field;point;reading;range
${Array.from({ length: 9 }, (_, i) => `white;${i + 1};11${i},5;10`).join('\n')}
last;1;119;10
`;
const OFFERS = `bidder;white;colour;standard;price;currency
Offer one;3100;2900;ISO/IEC 21118;840;EUR
Offer two;2500;2400;ISO/IEC 21118;610,50;EUR
`;

it.each(TURNS)(
  `reads or refuses ${2 * TURN} tables with one thing altered: %i`,
  () => {
    for (let i = 0; i < TURN; i++) {
      try {
        for (const { reading, range } of readReadings(alteredTable(READINGS), 'a.csv'))
          for (const value of [reading, range])
            if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
        note('readings', 'read');
      } catch (error) {
        if (!(error instanceof Failure)) throw error;
        inWords(error.message);
        note('readings', 'refused');
      }
      const offers = readOffers(alteredTable(OFFERS));
      note('offers', isRefusal(offers) ? 'refused' : 'read');
      if (isRefusal(offers)) inWords(offers.message);
    }
  },
  600_000,
);
