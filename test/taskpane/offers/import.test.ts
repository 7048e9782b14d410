import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decode } from '../../../taskpane/offers/decode';
import { exportOffers } from '../../../taskpane/offers/exported';
import { EMPTY_OFFER, OFFER_FIELDS, OFFER_IDS, type OfferTexts } from '../../../taskpane/offers/fields';
import { assign, guess } from '../../../taskpane/offers/mapping';
import { readRows, sentence } from '../../../taskpane/offers/rows';
import { LINES_MAX, type OffersTable, readTable } from '../../../taskpane/offers/table';

/* Bidders and figures are invented. */

function table(text: string): OffersTable {
  const found = readTable(text);
  if (typeof found === 'string') throw new Error(found);
  return found;
}
function rowsOf(text: string, mark?: 'point' | 'comma') {
  const found = table(text);
  return readRows(found, found.mapping, found.hasHeadings, mark);
}

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
      mapping: ['bidder', 'white'],
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
    expect(rowsOf('Bidder,White\n\nA,3000\n\n,,\nB,3100').rows.map(({ line }) => line)).toEqual([3, 6]);
  });

  it('a first line of figures is no heading', () => {
    expect(table('North,3000\nSouth,3100')).toMatchObject({
      hasHeadings: false,
      mapping: [undefined, undefined],
    });
  });

  it('nothing, too much, and what is no text are told apart', () => {
    expect(readTable(' \n')).toBe('');
    expect(readTable('x'.repeat(500_001))).toMatch(/far more text/);
    expect(readTable('PK\u0003\u0004\u0000\u0000')).toMatch(/not a text file/);
    expect(readTable(`Bidder\n${'A\n'.repeat(LINES_MAX + 1)}`)).toMatch(/at most 500/);
  });
});

describe('rows are read', () => {
  it('numbers with point, comma, groups and units', () => {
    const text = [
      'Bidder;White;Price;Power;Source life;Warranty',
      'North;3 200 lm;1.299,50;250 W;20.000 h;3 years',
      'South;2910;999,00;180,5;30000;-',
    ].join('\n');
    const { rows, errors, proof } = rowsOf(text);
    expect(errors).toEqual([]);
    expect(proof?.mark).toBe('comma');
    expect(rows.map(({ offer }) => offer)).toEqual([
      { bidder: 'North', white: 3200, price: 1299.5, power: 250, sourceLife: 20000, warranty: 3 },
      { bidder: 'South', white: 2910, price: 999, power: 180.5, sourceLife: 30000 },
    ]);
  });

  it('what can be read in two ways is asked about once for the file', () => {
    const text = 'Bidder;Price\nNorth;1.299\nSouth;2.500';
    const asked = rowsOf(text);
    expect(asked.question).toEqual({ text: '1.299', point: 1.299, comma: 1299 });
    expect(asked.rows.some(({ offer }) => offer)).toBe(false);
    expect(rowsOf(text, 'comma').rows.map(({ offer }) => offer?.price)).toEqual([1299, 2500]);
    expect(rowsOf(text, 'point').rows.map(({ offer }) => offer?.price)).toEqual([1.299, 2.5]);
  });

  it('every bad cell is told with line, column, what was expected and what came', () => {
    const text = [
      'Bidder,Rated white,Price,Warranty',
      'North,bright,900,3',
      ',3000,900,3',
      'South,0,-5,40',
      'West,3000,900,2',
    ].join('\n');
    const { errors, rows } = rowsOf(text);
    expect(errors.map(sentence)).toEqual([
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
    const { errors } = readRows(found, ['bidder', 'white'], false);
    expect(sentence(errors[0]!)).toMatch(/^Line 1, column 2: /);
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
    const [headings, line] = exportOffers([{ texts: offer, marks: {} }], true).split('\r\n');
    expect(headings!.split(';')[0]).toBe('Bidder and offer');
    expect(line).toBe('"North; ""type 1"" (invented)";3200;;;1299,5;EUR;;;;');
  });

  it('what a spreadsheet would run as a formula is guarded, and comes back as it was', () => {
    const texts = { ...offer, bidder: '=1+1' };
    const csv = exportOffers([{ texts, marks: {} }], false);
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
            texts: { ...EMPTY_OFFER, bidder, white: `${white.toFixed(6)}`, price: `${price.toFixed(6)}` },
            marks: {},
          }));
          const back = rowsOf(exportOffers(entries, comma));
          expect(back.errors).toEqual([]);
          expect(back.question).toBeUndefined();
          expect(back.rows.map(({ offer: found }) => [found!.bidder, found!.white, found!.price])).toEqual(
            all.map(([bidder, white, price]) => [bidder, Number(white.toFixed(6)), Number(price.toFixed(6))]),
          );
        },
      ),
    );
  });
});
