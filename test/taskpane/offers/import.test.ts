// @vitest-environment node
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isRefusal } from '../../../src/csv/table';
import { decode } from '../../../taskpane/importing/decode';
import { exportOffers } from '../../../taskpane/offers/exported';
import { EMPTY_OFFER, OFFER_FIELDS, OFFER_IDS, type OfferTexts } from '../../../taskpane/offers/fields';
import { assign, guess } from '../../../taskpane/offers/mapping';
import { readRows } from '../../../taskpane/offers/rows';
import { LINES_MAX, type OffersTable, readOffers } from '../../../taskpane/offers/table';

/* Bidders and figures are invented. */

function table(text: string): OffersTable {
  const found = readOffers(text);
  if (!found || isRefusal(found)) throw new Error(found?.message ?? 'nothing');
  return found;
}
function rowsOf(text: string, mark?: 'point' | 'comma') {
  const found = table(text);
  return readRows(found, {
    columns: found.guess,
    hasHeadings: found.hasHeadings,
    decisions: mark ? { mark } : {},
  });
}
const offersOf = (text: string) => rowsOf(text).rows.map(({ offer }) => offer);
const problemsOf = (text: string) => rowsOf(text).rows.flatMap(({ problems }) => problems);

describe('columns are guessed from headings', () => {
  it.each([
    ['Bidder and offer', 'bidder'],
    ['Company name', 'bidder'],
    ['Rated white, lm', 'white'],
    ['Brightness (lumens)', 'white'],
    ['Colour light output', 'colour'],
    ['COLOR BRIGHTNESS', 'colour'],
    ['Norm', 'standard'],
    ['Unit price', 'price'],
    ['Currency', 'currency'],
    ['Power consumption', 'power'],
    ['Lamp life (hours)', 'sourceLife'],
    ['Cost of replacement lamp', 'sourcePrice'],
    ['Price of a source', 'sourcePrice'],
    ['Guarantee', 'warranty'],
    ['Bieter', 'bidder'],
    ['Weißlicht', 'white'],
    ['Farblicht', 'colour'],
    ['Währung', 'currency'],
    ['Weight', undefined],
    ['', undefined],
  ])('%s → %s', (heading, field) => {
    expect(guess([heading])).toEqual([field]);
  });

  it('our own headings are all known', () => {
    expect(guess(OFFER_IDS.map((id) => OFFER_FIELDS[id].label))).toEqual(OFFER_IDS);
  });

  it('a field is given once; a person’s choice takes it from the other column', () => {
    expect(guess(['Price', 'Price with tax'])).toEqual(['price', undefined]);
    expect(assign(['price', undefined], 1, 'price')).toEqual([undefined, 'price']);
    expect(assign(['price', undefined], 0, undefined)).toEqual([undefined, undefined]);
  });
});

describe('a text is taken apart', () => {
  it.each([
    ['tab', 'Bidder\tWhite\nA\t3000'],
    ['semicolon', 'Bidder;White\nA;3000'],
    ['comma', 'Bidder,White\nA,3000'],
  ])('at each %s', (delimiter, text) => {
    expect(table(text)).toMatchObject({
      how: `Cells end at each ${delimiter}.`,
      columns: 2,
      hasHeadings: true,
      guess: ['bidder', 'white'],
    });
  });

  it('a semicolon inside a name does not split a file of commas', () => {
    const { rows } = rowsOf('Bidder,White,Price\nNorth; hall,3000,900.50');
    expect(rows[0]!.offer).toEqual({ bidder: 'North; hall', white: 3000, price: 900.5 });
    expect(table('North;3000,5;900,50').columns).toBe(3);
  });

  it('quoted cells may hold the delimiter, quotes and line ends (RFC 4180)', () => {
    const { rows } = rowsOf('Bidder,White\r\n"North, ""type 1""",3000\r\n');
    expect(rows.map(({ offer }) => offer)).toEqual([{ bidder: 'North, "type 1"', white: 3000 }]);
  });

  it('lines keep their numbers where others are empty', () => {
    expect(rowsOf('Bidder,White\n\nA,3000\n\n,,\nB,3100').rows.map(({ line }) => line.line)).toEqual([3, 6]);
  });

  it('a first line of figures is no heading', () => {
    expect(table('North,3000\nSouth,3100')).toMatchObject({
      hasHeadings: false,
      guess: [undefined, undefined],
    });
  });

  it('nothing, too much, and what is no text are told apart', () => {
    expect(readOffers(' \n')).toBeUndefined();
    expect(readOffers('x'.repeat(500_001))).toMatchObject({ refused: 'too much text' });
    expect(readOffers('PK\u0003\u0004\u0000\u0000')).toMatchObject({ refused: 'no text' });
    expect(readOffers(`Bidder\n${'A\n'.repeat(LINES_MAX + 1)}`)).toMatchObject({
      refused: 'too many lines',
      message: expect.stringContaining('at most 500'),
    });
    expect(readOffers('A\n'.repeat(200_000))).toMatchObject({ refused: 'too many lines' });
  });
});

describe('rows are read', () => {
  it('numbers with point, comma, groups and units', () => {
    const text = [
      'Bidder;White;Price;Power;Source life;Warranty',
      'North;3 200 lm;1.299,50;250 W;20.000 h;3 years',
      'South;2910;999,00;180,5;30000;-',
    ].join('\n');
    const { rows, proof } = rowsOf(text);
    expect(problemsOf(text)).toEqual([]);
    expect(proof?.mark).toBe('comma');
    expect(rows.map(({ offer }) => offer)).toEqual([
      { bidder: 'North', white: 3200, price: 1299.5, power: 250, sourceLife: 20000, warranty: 3 },
      { bidder: 'South', white: 2910, price: 999, power: 180.5, sourceLife: 30000 },
    ]);
  });

  it('what can be read in two ways is asked about once for the file', () => {
    const text = 'Bidder;Price\nNorth;1.299\nSouth;2.500';
    const asked = rowsOf(text);
    expect(asked.questions.map(({ message }) => message)).toEqual([
      '“1.299” in line 2 can mean 1.299 or 1299. Which mark do the decimals of this list have?',
    ]);
    expect(asked.rows.some(({ offer }) => offer)).toBe(false);
    expect(rowsOf(text, 'comma').rows.map(({ offer }) => offer?.price)).toEqual([1299, 2500]);
    expect(rowsOf(text, 'point').rows.map(({ offer }) => offer?.price)).toEqual([1.299, 2.5]);
  });

  it('a mark that other cells prove is asked about where it makes a projector of a glimmer', () => {
    const text = 'Bidder;White;Colour;Price\nNorth;6 000 lm;5,900;1 480,00 €';
    const asked = rowsOf(text);
    expect(asked.proof).toBeUndefined();
    expect(asked.questions.map(({ message }) => message)).toEqual([
      '“5,900” in line 2 can mean 5900 or 5.9. Which mark do the decimals of this list have?',
    ]);
    expect(rowsOf(text, 'point').rows[0]!.offer).toMatchObject({ white: 6000, colour: 5900, price: 1480 });
  });

  it('every bad cell is told with line, column, what was expected and what came', () => {
    const text = [
      'Bidder,Rated white,Price,Warranty',
      'North,bright,900,3',
      ',3000,900,3',
      'South,0,-5,40',
      'West,3000,900,2',
    ].join('\n');
    const { rows } = rowsOf(text);
    expect(problemsOf(text)).toEqual([
      'Line 2, column “Rated white”: expected lumens above 0, at most 1 000 000, came “bright”.',
      'Line 3, column “Bidder”: expected a name of at most 80 characters, came nothing.',
      'Line 4, column “Rated white”: expected lumens above 0, at most 1 000 000, came “0”.',
      'Line 4, column “Price”: expected a price above 0, came “-5”.',
      'Line 4, column “Warranty”: expected years from 0 to 30, came “40”.',
    ]);
    expect(rows.filter(({ offer }) => offer).map(({ offer }) => offer!.bidder)).toEqual(['West']);
  });

  it('without headings a column is called by its place', () => {
    const found = table('North,bright\nSouth,3000');
    const { rows } = readRows(found, { columns: ['bidder', 'white'], hasHeadings: false, decisions: {} });
    expect(rows[0]!.problems[0]).toMatch(/^Line 1, column 2: /);
  });

  it('without a column of names nothing is read', () => {
    expect(rowsOf('White,Price\n3000,900').objection).toMatch(/which column names the bidder/);
    expect(rowsOf('Bidder,Price').objection).toMatch(/no line with an offer/);
  });

  it('an unused column is not looked at', () => {
    expect(rowsOf('Bidder,Weight,White\nNorth,heavy,3000').rows[0]!.offer).toEqual({
      bidder: 'North',
      white: 3000,
    });
  });
});

/* How prices and powers are written by tradesmen of several countries: common practice. */
describe('a figure may bring its unit or its currency', () => {
  const line = (heading: string, cell: string) => offersOf(`Bidder;${heading}\nNorth;${cell}`)[0];

  it.each([
    ['4.100,00 €', { price: 4100, currency: 'EUR' }],
    ['€ 4.100,00', { price: 4100, currency: 'EUR' }],
    ['EUR 4100', { price: 4100, currency: 'EUR' }],
    ['4100 eur', { price: 4100, currency: 'EUR' }],
    ["CHF 4'100.-", { price: 4100, currency: 'CHF' }],
    ['4.100,-', { price: 4100 }],
    ['$4,100.50', { price: 4100.5, currency: '$' }],
    ['US$ 4,100.50', { price: 4100.5, currency: 'US$' }],
    ['4100 kr', { price: 4100, currency: 'kr' }],
  ])('price %s', (cell, expected) => {
    expect(line('Price', cell)).toEqual({ bidder: 'North', ...expected });
  });

  it.each([
    ['Preis (EUR)', 'EUR'],
    ['Price in €', 'EUR'],
    ['Unit price EUR', 'EUR'],
    ['PRICE [CHF]', 'CHF'],
    ['Price ($)', '$'],
    ['PRICE FOR ALL', undefined],
    ['Price, net', undefined],
  ])('a heading %s', (heading, currency) => {
    expect(line(heading, '4.100,00')).toEqual({
      bidder: 'North',
      price: 4100,
      ...(currency ? { currency } : {}),
    });
  });

  it.each([
    ['Power', '0,55 kW', 550],
    ['Power', '550 W', 550],
    ['Leistung (kW)', '0,55', 550],
    ['Power in kW', '550 W', 550],
    // At most 100 kW: only one of the two readings is possible.
    ['Power', '1,200 kW', 1200],
  ])('%s: %s', (heading, cell, power) => expect(line(heading, cell)).toEqual({ bidder: 'North', power }));

  it('several currencies in one offer are told, and the other lines can go', () => {
    const text = 'Bidder;Price;Currency\nNorth;4100 €;USD\nSouth;4000 €;EUR\nEast;3900;\nWest;"3800;EUR';
    expect(problemsOf(text)).toEqual([
      'Line 2, Currency: the offer names USD and EUR; one is wanted.',
      'Line 5: a quotation mark is never closed.',
    ]);
    expect(offersOf(text).map((offer) => offer?.bidder)).toEqual([undefined, 'South', 'East', undefined]);
  });
});

describe('letters of a file', () => {
  it('UTF-8, UTF-16 with its mark, and the letters of western Windows', () => {
    expect(decode(new TextEncoder().encode('Büro'))).toEqual({ text: 'Büro', note: '' });
    expect(decode(new Uint8Array([0xff, 0xfe, 0x42, 0, 0xfc, 0])).text).toBe('Bü');
    expect(decode(new Uint8Array([0xfe, 0xff, 0, 0x42, 0, 0xfc])).text).toBe('Bü');
    // 0xFC is ü in Windows-1252 and no UTF-8.
    const old = decode(new Uint8Array([0x42, 0xfc, 0x72, 0x6f]));
    expect(old.text).toBe('Büro');
    expect(old.note).toMatch(/Check names/);
  });
});

describe('the export', () => {
  const offer: OfferTexts = {
    ...EMPTY_OFFER,
    bidder: 'North; "type 1" (invented)',
    white: '3 200',
    price: '1299,5',
    currency: 'EUR',
  };

  it('has our headings, plain numbers and quoted cells', () => {
    const [headings, line] = exportOffers([offer], true).split('\r\n');
    expect(headings!.split(';')[0]).toBe('Bidder and offer');
    expect(line).toBe('"North; ""type 1"" (invented)";3200;;;1299,5;EUR;;;;');
  });

  it('what a spreadsheet would run as a formula is guarded, and comes back as it was', () => {
    const texts = { ...offer, bidder: '=1+1' };
    const csv = exportOffers([texts], false);
    expect(csv).toContain("'=1+1,");
    expect(rowsOf(csv).rows[0]!.texts.bidder).toBe('=1+1');
  });

  it('comes back as the same offers, whatever figures and names, in both countries', () => {
    const positive = fc.double({ min: 0.001, max: 1e5, noNaN: true }).map((n) => Number(n.toPrecision(6)));
    const name = fc
      .string({ minLength: 1, maxLength: 40, unit: fc.constantFrom(...'abc "\';,=+-@09éß') })
      .filter(
        (text) =>
          text.trim().replace(/^'+/, '') !== '' &&
          text.trim() === text.replace(/ +/g, ' ') &&
          !text.startsWith("'"),
      );
    fc.assert(
      fc.property(
        fc.array(fc.tuple(name, positive, positive), { minLength: 1, maxLength: 5 }),
        fc.boolean(),
        (all, comma) => {
          const entries = all.map(([bidder, white, price]) => ({
            ...EMPTY_OFFER,
            bidder,
            white: white.toFixed(6),
            price: price.toFixed(6),
          }));
          const back = rowsOf(exportOffers(entries, comma));
          expect(back.rows.flatMap(({ problems }) => problems)).toEqual([]);
          expect(back.questions).toEqual([]);
          expect(back.rows.map(({ offer: found }) => [found!.bidder, found!.white, found!.price])).toEqual(
            all.map(([bidder, white, price]) => [bidder, Number(white.toFixed(6)), Number(price.toFixed(6))]),
          );
        },
      ),
    );
  });
});
