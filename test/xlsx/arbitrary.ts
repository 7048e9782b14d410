import fc from 'fast-check';
import { refersTo } from '../../src/sheets/address';
import type {
  Book,
  BookCell,
  BookSheet,
  CellValue,
  DefinedName,
  Style,
  Validation,
} from '../../src/sheets/book';
import { sheetWith } from './sample';

/*
 * Workbooks of every kind that a file can hold, small. What a file cannot tell apart is not made: the size 11
 * (the default), styles that say "not bold", #SPILL! and its like, -0.
 */

/** Any characters, those that XML cannot hold and half surrogates among them. */
const text = (maxLength: number) =>
  fc.oneof(
    { weight: 4, arbitrary: fc.string({ unit: 'grapheme', maxLength }) },
    { weight: 2, arbitrary: fc.string({ unit: 'binary', maxLength: Math.floor(maxLength / 2) }) },
    fc.constantFrom(
      '=1+1',
      '-1',
      "'quoted",
      '#N/A',
      '#SPILL!',
      ' a ',
      '\n',
      '\t',
      '_x0041_',
      '_x005F_x0041_',
      'a\r\nb',
    ),
    fc
      .constantFrom(
        '\uFFFE',
        '\uFFFF',
        '\uD83D',
        '\uDE00',
        '\u0000\u0001',
        ']]>',
        '&amp;',
        '<c>',
        '1e5',
        'TRUE',
      )
      .map((odd) => odd.slice(0, maxLength)),
  );

const colour = fc.stringMatching(/^#[0-9A-F]{6}$/);
const number = fc
  .double({ noNaN: true, noDefaultInfinity: true })
  .map((value) => (Object.is(value, -0) ? 0 : value));
const error = fc
  .constantFrom('#VALUE!', '#N/A', '#DIV/0!', '#NUM!', '#NULL!', '#NAME?', '#REF!')
  .map((kind) => ({ error: kind }) as const);
const value: fc.Arbitrary<CellValue> = fc.oneof(number, fc.integer(), text(30), fc.boolean(), error);

const style: fc.Arbitrary<Style> = fc.record(
  {
    format: fc.constantFrom(
      'General',
      '0.00',
      '#,##0.0 "lx"',
      'yyyy-mm-dd',
      '[h]:mm',
      '0.0 %',
      '@',
      '0 "days"',
      '0.0E+0',
    ),
    fill: colour,
    color: colour,
    bold: fc.constant(true),
    italic: fc.constant(true),
    size: fc.constantFrom(8, 9, 10.5, 12, 16),
    align: fc.constantFrom('left', 'center', 'right'),
    vertical: fc.constantFrom('top', 'center', 'bottom'),
    wrap: fc.constant(true),
    border: fc.record({
      color: colour,
      weight: fc.constantFrom('thin', 'medium'),
      sides: fc.constantFrom('box', 'bottom', 'top'),
    }),
    locked: fc.boolean(),
  },
  { requiredKeys: [] },
);
const someStyle = style.filter((made) => Object.keys(made).length > 0);

const formula = fc.oneof(
  fc.constantFrom(
    '=SUM(B2:D4)',
    '=LIGHT.OUTPUT(WhiteReadings,B5)',
    '=T.INV.2T(0.05,9)*STDEV.S(B2:D4)',
    '=LET(x,B2,x*x)',
    "='Run 1'!B2+1",
    '=IFERROR(LIGHT.RATIO(B2:D4),"a < b & c > d")',
  ),
  text(20)
    .map((made) => `=LEN("${made.replace(/\r\n?/g, '').replace(/"/g, '""')}")`)
    .filter(isXml),
);
/** A formula cannot hold what XML cannot: Excel has no way to store it either. */
function isXml(made: string): boolean {
  return [...made].every((character) => {
    const code = character.codePointAt(0)!;
    const isControl = code < 32 && !'\t\n'.includes(character);
    return !isControl && (code < 0xd800 || code > 0xdfff) && code !== 0xfffe && code !== 0xffff;
  });
}

const address = fc
  .tuple(fc.constantFrom('A', 'B', 'F', 'Z', 'AA', 'CV'), fc.integer({ min: 1, max: 60 }))
  .map(([column, row]) => `${column}${row}`);

const cell: fc.Arbitrary<BookCell> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ value, style: someStyle }, { requiredKeys: ['value'] }) },
  {
    weight: 2,
    arbitrary: fc.record({ value, formula, style: someStyle }, { requiredKeys: ['value', 'formula'] }),
  },
  fc.record({ value: fc.constant(null), style: someStyle }),
);

const range = fc.constantFrom('B2', 'B2:D4', 'AA10:AB12', 'A1:A60');
const validation: fc.Arbitrary<Validation> = fc.record({
  range,
  rule: fc.oneof(
    fc.record(
      {
        type: fc.constant('number' as const),
        min: fc.integer(),
        max: fc.integer(),
        whole: fc.constant(true),
      },
      { requiredKeys: ['type'] },
    ),
    fc.record({
      type: fc.constant('list' as const),
      choices: fc.array(fc.stringMatching(/^[a-z"' /+.]{1,9}$/), { minLength: 1, maxLength: 9 }),
    }),
    fc.record({
      type: fc.constant('date' as const),
      min: fc
        .date({ min: new Date('1950-01-01'), max: new Date('2100-01-01'), noInvalidDate: true })
        .map((day) => day.toISOString().slice(0, 10)),
    }),
    fc.record({ type: fc.constant('length' as const), max: fc.integer({ min: 0, max: 1000 }) }),
    fc.record({
      type: fc.constant('formula' as const),
      formula: fc.constantFrom('=B2>0', '=COUNT(B2:D4)=9'),
    }),
  ),
  prompt: fc.record({ title: text(32), message: text(255) }),
  refusal: fc.record({ title: text(32), message: text(224), style: fc.constantFrom('stop', 'warning') }),
});

const name = (target: string): fc.Arbitrary<DefinedName> =>
  fc.record(
    {
      name: fc.stringMatching(/^[A-Z][a-z]{3,12}$/),
      refersTo: fc.constantFrom(target, '="run;1;a1b2"', '=0.05', '=SUM($A$1:$A$3)'),
      comment: text(40).filter((made) => made !== ''),
      hidden: fc.constant(true),
    },
    { requiredKeys: ['name', 'refersTo'] },
  );
const names = (target: string) =>
  fc.uniqueArray(name(target), { maxLength: 4, selector: (made) => made.name.toLowerCase() });

const sheetName = fc.oneof(
  fc.stringMatching(/^[A-Za-zÄé光][A-Za-z0-9 ,.!&<>"'()-]{0,20}[a-z0-9]$/),
  fc.constantFrom("Anna's run", 'A1', '1, 2 & 3', 'Run <1>'),
);

function sheet(called: string): fc.Arbitrary<BookSheet> {
  const frozen = fc.record({ rows: fc.integer({ min: 0, max: 9 }), columns: fc.integer({ min: 1, max: 9 }) });
  return fc
    .record(
      {
        visibility: fc.constantFrom('visible', 'hidden', 'veryHidden'),
        cells: fc.dictionary(address, cell, { maxKeys: 12, noNullPrototype: true }),
        names: names(refersTo(called, 'B2:D4')),
        validations: fc.array(validation, { maxLength: 3 }),
        scales: fc.array(
          fc.record(
            { range, low: colour, middle: colour, high: colour },
            { requiredKeys: ['range', 'low', 'high'] },
          ),
          { maxLength: 2 },
        ),
        alerts: fc.array(
          fc.record({ range, begins: fc.stringMatching(/^[a-z" <&]{1,9}$/), fill: colour, color: colour }),
          { maxLength: 2 },
        ),
        notes: fc
          .subarray(['A1', 'B2', 'C7', 'A60'])
          .chain((places) => fc.tuple(...places.map((at) => text(300).map((made) => ({ at, text: made }))))),
        merges: fc.subarray(['A1:D1', 'A3:A5', 'F7:G8']),
        columns: fc.dictionary(
          fc.constantFrom('A', 'C', 'AB'),
          fc.double({ min: 1, max: 200, noNaN: true }),
          { noNullPrototype: true },
        ),
        rows: fc.dictionary(fc.constantFrom('1', '7', '61'), fc.double({ min: 1, max: 400, noNaN: true }), {
          noNullPrototype: true,
        }),
        isProtected: fc.boolean(),
        freeze: frozen,
        gridlines: fc.boolean(),
        print: fc
          .tuple(
            fc.record(
              {
                area: fc.constantFrom('A1:H40', 'B2:D4'),
                orientation: fc.constantFrom('portrait', 'landscape'),
                titles: fc.constantFrom('1:1', '4:5'),
                titleColumns: fc.constantFrom('A:A', 'A:B'),
                breaks: fc.constantFrom([2], [7, 31]),
                columnBreaks: fc.constantFrom(['C'], ['D', 'AA']),
              },
              { requiredKeys: ['area', 'orientation'] },
            ),
            // Pages to fit on, or a scale.
            fc.oneof(
              fc.record({ wide: fc.integer({ min: 0, max: 3 }), tall: fc.integer({ min: 0, max: 3 }) }),
              fc.record({
                wide: fc.constant(0),
                tall: fc.constant(0),
                scale: fc.integer({ min: 10, max: 400 }),
              }),
            ),
          )
          .map(([pages, size]) => ({ ...pages, ...size })),
      },
      {
        requiredKeys: [
          'visibility',
          'cells',
          'names',
          'validations',
          'scales',
          'alerts',
          'notes',
          'merges',
          'columns',
          'rows',
          'isProtected',
          'gridlines',
        ],
      },
    )
    .map((made) => sheetWith({ name: called, ...made }));
}

/** One to three sheets, at least one of them visible, and one of the visible ones in front. */
export const book: fc.Arbitrary<Book> = fc
  .uniqueArray(sheetName, { minLength: 1, maxLength: 3, selector: (made) => made.toLowerCase() })
  .chain((called) =>
    fc.record({
      sheets: fc.tuple(...called.map(sheet)),
      names: names(refersTo(called[0]!, 'A1')),
      front: fc.nat(called.length - 1),
    }),
  )
  .map(({ sheets, names: whole, front }) => {
    const shown = sheets.map((made, at) =>
      at === front ? { ...made, visibility: 'visible' as const } : made,
    );
    return { sheets: shown, names: whole, active: shown[front]!.name };
  });
