// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { isRefusal } from '../../../src/csv/table';
import type { BatchReadings } from '../../../src/procurement/batch/columns';
import { blocksOf } from '../../../taskpane/batch/logblocks';
import type { LogBatch } from '../../../taskpane/batch/logrow';
import { isClean, type LogChoices, readLog } from '../../../taskpane/batch/logrows';
import { readLogTable } from '../../../taskpane/batch/logtable';
import { amount } from '../../tools/amount';

/** As many lines as a batch takes, in the long run. */
const MANY = amount(500, 5000);

/* Serial numbers and readings are invented. What a text means is read off the text beside it. */

const BATCH: LogBatch = {
  readings: 'nine points white',
  unit: 'lx',
  serials: ['K-1', 'K-2', 'K-3', '', ''],
  filled: [false, true, false, false, false],
  isAmbientByRow: false,
};
const nine = (value: string, mark = ';') => Array<string>(9).fill(value).join(mark);

function read(text: string, batch: Partial<LogBatch> = {}, choices: Partial<LogChoices> = {}) {
  const into = { ...BATCH, ...batch };
  const table = readLogTable(text, into.readings, into.serials);
  if (!table || isRefusal(table)) throw new Error(table?.message ?? 'nothing');
  const found = readLog(table, into, {
    columns: table.guess,
    hasHeadings: table.hasHeadings,
    decisions: {},
    takesUnknown: false,
    ...choices,
  });
  const clean = found.questions.length > 0 ? [] : found.rows.filter(isClean);
  return { table, found, clean };
}
const values = ({ found }: ReturnType<typeof read>) =>
  found.rows.map(({ entries }) =>
    entries.map((entry) => (entry.kind === 'number' ? entry.value : entry.kind)),
  );

describe('a log is taken apart however its cells are parted', () => {
  it.each([
    ['tabs', `K-1\t${nine('900.5', '\t')}`, 900.5],
    ['semicolons and decimal commas', `K-1;${nine('900,5')}`, 900.5],
    ['commas', `K-1,${nine('900.5', ',')}`, 900.5],
    ['commas with spaces', `K-1, ${nine('900.5', ', ')}`, 900.5],
    ['spaces', `K-1 ${nine('900.5', ' ')}`, 900.5],
    ['units behind the numbers', `K-1;${nine('900,5 lx')}`, 900.5],
    ['spaces that group thousands', `K-1;${nine('1 234,5')}`, 1234.5],
    ['quotes', `"K-1","${nine('900.5', '","')}"`, 900.5],
    ['Windows line ends and a mark in front', `\ufeffK-1;${nine('900,5')}\r\n`, 900.5],
  ])('%s', (_what, text, value) => {
    const log = read(text);
    expect(values(log)).toEqual([Array(9).fill(value)]);
    expect(log.clean).toHaveLength(1);
    expect(log.found.rows[0]).toMatchObject({ serial: 'K-1', target: 0, isNew: false });
  });

  it('a comma that could be either is asked for, once for all', () => {
    const log = read(`K-1;${nine('1,234')}\nK-2;${nine('1,234')}`);
    expect(log.clean).toEqual([]);
    expect(log.found.questions.map(({ message }) => message)).toEqual([
      '“1,234” in line 1 can mean 1234 or 1.234. Which mark do the decimals of this log have?',
    ]);
    const answered = read(`K-1;${nine('1,234')}`, {}, { decisions: { mark: 'point' } });
    expect(values(answered)).toEqual([Array(9).fill(1234)]);
  });

  it('one number that proves the mark settles the others', () => {
    const log = read(`K-1;12,5;${nine('1.234').split(';').slice(1).join(';')}`);
    expect(log.found.proof).toEqual({ mark: 'comma', example: '12,5' });
    expect(values(log)[0]!.slice(0, 2)).toEqual([12.5, 1234]);
  });
});

describe('headings tell what the columns are', () => {
  const HEAD = 'Serial no.;Room;Run time;Date;Range;P1;P2;P3;P4;P5;P6;P7;P8;P9';

  it('wherever they stand', () => {
    const log = read(`${HEAD}\nK-1;Hall;1 200 h;25.11.2026;×10;${nine('90')}`);
    expect(log.table.hasHeadings).toBe(true);
    expect(log.found.rows[0]).toMatchObject({
      place: 'Hall',
      hours: 1200,
      date: '2026-11-25',
      range: 10,
      problems: [],
    });
  });

  it('without them, readings begin at the first column of numbers', () => {
    const log = read(`K-1;Hall, west;${nine('90')}\nK-2;Office;${nine('91')}`);
    expect(log.table.guess).toMatchObject({ serial: 0, first: 2 });
    expect(log.clean).toHaveLength(2);
    // A run time beside the serial number is no reading: nine stand behind it.
    expect(read(`K-1;1200;${nine('90')}\nK-2;800;${nine('91')}`).table.guess.first).toBe(2);
  });

  it('a bad cell in the first column of readings does not push them on', () => {
    const log = read(`K-1;dim;${nine('90').slice(3)}\nK-3;;${nine('91').slice(3)}\nK-2;${nine('92')}`);
    expect(log.table.guess.first).toBe(1);
    expect(values(log)[2]).toEqual(Array(9).fill(92));
  });

  it('36 in a line, or a line a colour', () => {
    const readings: BatchReadings = 'nine points in each colour';
    const all = Array.from({ length: 36 }, (_, i) => 10 + i).join(';');
    expect(read(`K-1;${all}`, { readings }).clean).toHaveLength(1);
    const lines = ['white', 'red', 'green', 'blue'].map((field, i) => `K-1;${field};${nine(String(10 + i))}`);
    expect(read(lines.join('\n'), { readings }).clean).toHaveLength(4);
    const log = read(`Serial;Colour;${nine('P')}\n${lines.join('\n')}`, { readings });
    expect(log.clean.map(({ field }) => field)).toEqual(['white', 'red', 'green', 'blue']);
    expect(blocksOf(log.clean, readings, [], 'Log').filter(({ name }) => name === 'Readings')).toEqual(
      [0, 1, 2, 3].map((i) => ({
        name: 'Readings',
        row: 0,
        column: 9 * i,
        values: [Array(9).fill(10 + i)],
      })),
    );
  });

  it('the centre alone', () => {
    const log = read('K-1;900\nK-2;880', { readings: 'centre white' });
    expect(values(log)).toEqual([[900], [880]]);
  });
});

describe('ambient light of a line', () => {
  const ambient = (text: string, unit: LogBatch['unit'] = 'lx') => {
    const { found } = read(
      `K-1;90;${text}`,
      { readings: 'centre white', unit, isAmbientByRow: true },
      {
        columns: { serial: 0, first: 1, ambient: 2 },
      },
    );
    const { ambient: value, problems } = found.rows[0]!;
    return problems.length > 0 ? problems : value;
  };

  it.each([
    ['0.5', 0.5],
    ['0,5 lx', 0.5],
    ['0.5 lux', 0.5],
    ['0', 0],
    ['', undefined],
  ])('“%s”', (text, value) => {
    expect(ambient(text)).toEqual(value);
  });

  it('in another unit than the meter’s it is converted no more than a reading is', () => {
    expect(ambient('0.5 fc')).toEqual([
      'Line 1, K-1, ambient reading at centre (point 5): expected lx, the meter’s unit on this sheet, came “0.5 fc”; nothing is converted unasked.',
    ]);
    expect(ambient('0.5 fc', 'fc')).toBe(0.5);
    expect(ambient('0.5 lx', 'fc')).toHaveLength(1);
  });

  it('what is no number of its own is refused', () => {
    expect(ambient('OL')).toEqual([expect.stringMatching(/expected a number in lx, came “OL”\.$/)]);
    expect(ambient('1,234')).toEqual([
      expect.stringMatching(/came “1,234”, which may be read in two ways\.$/),
    ]);
    expect(ambient('-1')).toHaveLength(1);
  });
});

describe('errors come line by line, and a line is never taken in part', () => {
  const problems = (text: string, batch: Partial<LogBatch> = {}) =>
    read(text, batch).found.rows.flatMap((r) => r.problems);

  it.each([
    [
      'another unit',
      `K-1;10 fc;${nine('90').slice(3)}`,
      'Line 1, K-1, white reading at top left (point 1): expected lx, the meter’s unit on this sheet, came “10 fc”; nothing is converted unasked.',
    ],
    [
      'a word',
      `K-1;dim;${nine('90').slice(3)}`,
      'Line 1, K-1, white reading at top left (point 1): expected a number in lx, came “dim”.',
    ],
    [
      'an error of a spreadsheet',
      `K-1;#N/A;${nine('90').slice(3)}`,
      'Line 1, K-1, white reading at top left (point 1): expected a number in lx, came the error #N/A.',
    ],
    [
      'zero',
      `K-1;0;${nine('90').slice(3)}`,
      'Line 1, K-1, white reading at top left (point 1): expected a reading above 0, or an empty cell if it was not taken, came “0”.',
    ],
    [
      'more light than there is',
      `K-1;300000;${nine('90').slice(3)}`,
      'Line 1, K-1, white reading at top left (point 1): expected at most 200000 lx, came “300000”.',
    ],
    ['too many readings', `K-1;${nine('90')};91`, 'Line 1, K-1: expected 9 readings, came 10.'],
    ['an unknown unit', `Z-9;${nine('90')}`, 'Line 1: “Z-9” is not in the batch.'],
    ['no serial number', ` ;${nine('90')}`, 'Line 1: it has no serial number.'],
    ['no reading', 'K-1;;;;;;;;;', 'Line 1, K-1: there is no reading in it.'],
  ])('%s', (_what, text, message) => {
    expect(problems(`${text}\nK-2;${nine('90')}`)).toEqual([message]);
    expect(read(`${text}\nK-2;${nine('90')}`).clean.map(({ serial }) => serial)).toEqual(['K-2']);
  });

  it('a unit that stands twice is a question, not a choice of ours', () => {
    expect(problems(`K-1;${nine('90')}\nK-1;${nine('91')}`)).toEqual([
      'Line 1: “K-1” stands in lines 1, 2: which one counts is for you to say.',
      'Line 2: “K-1” stands in lines 1, 2: which one counts is for you to say.',
    ]);
  });

  it('a wrong day and a wrong range factor', () => {
    const head = 'Serial;Date;Range;P1;P2;P3;P4;P5;P6;P7;P8;P9';
    expect(problems(`${head}\nK-1;11/25/2026;ten;${nine('90')}`)).toEqual([
      'Line 2, K-1, date: expected a day such as 2026-11-25 or 25.11.2026, came “11/25/2026”.',
      'Line 2, K-1, range factor: expected a number from 0.000001 to 1000000, came “ten”.',
    ]);
  });

  it('over range stays over range, and a gap stays a gap', () => {
    const log = read(`K-1;OL;;${nine('90').slice(6)}`);
    expect(values(log)).toEqual([['over', 'empty', ...Array(7).fill(90)]]);
    expect(
      blocksOf(log.clean, BATCH.readings, [], 'Log').find(({ name }) => name === 'Readings')!.values,
    ).toEqual([['over', null, ...Array(7).fill(90)]]);
  });

  it('a lone 1 among large readings is asked for', () => {
    const log = read(`K-1;1;${nine('900').slice(4)}`);
    expect(log.found.questions.map(({ message }) => message)).toEqual([
      'A lone 1 among much larger readings stands in line 1. On many meters that means over range.',
    ]);
    const over = read(`K-1;1;${nine('900').slice(4)}`, {}, { decisions: { ones: 'over range' } });
    expect(values(over)[0]![0]).toBe('over');
  });
});

describe('units the batch does not list', () => {
  it('go into free lines when asked to, while there are some', () => {
    const text = ['Z-1', 'Z-2', 'Z-3'].map((serial) => `${serial};${nine('90')}`).join('\n');
    const log = read(text, {}, { takesUnknown: true });
    expect(log.found.rows.map(({ target, isNew }) => [target, isNew])).toEqual([
      [3, true],
      [4, true],
      [undefined, false],
    ]);
    expect(log.found.rows[2]!.problems).toEqual(['Line 3: “Z-3” is not in the batch, and no line is free.']);
    expect(blocksOf(log.clean, BATCH.readings, [], 'Log')[0]).toMatchObject({
      name: 'Serials',
      row: 3,
      values: [['Z-1'], ['Z-2']],
    });
  });
});

describe('what is written', () => {
  it('neighbouring rows become one block, and a row without a remark says where it came from', () => {
    const log = read(
      ['K-2', 'K-1', 'K-3'].map((serial, i) => `${serial};${nine(String(90 + i))}`).join('\n'),
    );
    const blocks = blocksOf(log.clean, BATCH.readings, [null, 'seen by R.', null], 'Meter log, 2026-11-25');
    expect(blocks).toEqual(
      expect.arrayContaining([
        {
          name: 'Readings',
          row: 0,
          column: 0,
          values: [Array(9).fill(91), Array(9).fill(90), Array(9).fill(92)],
        },
        { name: 'UnitRemark', row: 0, column: 0, values: [['Meter log, 2026-11-25, line 2']] },
        { name: 'UnitRemark', row: 2, column: 0, values: [['Meter log, 2026-11-25, line 3']] },
      ]),
    );
    expect(blocks).toHaveLength(3);
  });

  it('text that is no log is refused in words', () => {
    expect(readLogTable('', 'centre white')).toBeUndefined();
    expect(read('words\nonly').found.objection).toMatch(/one cell only/);
    expect(readLogTable('a\u0000b', 'centre white')).toMatchObject({ refused: 'no text' });
    expect(readLogTable('9'.repeat(13_000_000), 'centre white')).toMatchObject({ refused: 'too much text' });
    expect(readLogTable('K-1;9\n'.repeat(200_000), 'centre white')).toMatchObject({
      refused: 'too many lines',
    });
  });

  it(`${MANY} lines of 36 are read`, () => {
    const line = Array<string>(36).fill('90,5').join(';');
    const serials = Array.from({ length: MANY }, (_, i) => `S-${i}`);
    const log = read(serials.map((serial) => `${serial};${line}`).join('\n'), {
      readings: 'nine points in each colour',
      serials,
      filled: serials.map(() => false),
    });
    expect(log.clean).toHaveLength(MANY);
  });
});

/* A hand-held meter's memory, one reading a line. Which column is what is read off the lines beside it. */
describe('a meter’s own log goes in the order of the batch', () => {
  const BATCH_OF_THREE: Partial<LogBatch> = { filled: [false, false, false, false, false] };
  /** So many lines of number, day, time and reading; the readings are 101, 102 … */
  const memory = (count: number, change: (cells: string[], i: number) => string[] = (cells) => cells) =>
    Array.from({ length: count }, (_, i) =>
      change(
        [String(i + 1), '25.11.2026', `14:${String(i % 60).padStart(2, '0')}:05`, `${101 + i},5`],
        i,
      ).join(';'),
    );
  const HEAD = 'Number;Date;Time;Value';

  it('unit after unit, point after point, with the day', () => {
    const log = read([HEAD, ...memory(27)].join('\n'), BATCH_OF_THREE);
    expect(log.table.guess).toMatchObject({ first: 3, date: 1, sequence: { isBackwards: false, from: '' } });
    expect(log.clean.map(({ serial, target, line, date }) => [serial, target, line, date])).toEqual([
      ['K-1', 0, 2, '2026-11-25'],
      ['K-2', 1, 11, '2026-11-25'],
      ['K-3', 2, 20, '2026-11-25'],
    ]);
    expect(values(log)[1]).toEqual([110.5, 111.5, 112.5, 113.5, 114.5, 115.5, 116.5, 117.5, 118.5]);
  });

  it('field after field where each unit has its colours', () => {
    const log = read(memory(36).join('\n'), { ...BATCH_OF_THREE, readings: 'nine points in each colour' });
    expect(log.clean).toHaveLength(1);
    expect(values(log)[0]).toEqual(Array.from({ length: 36 }, (_, i) => 101.5 + i));
  });

  it('to the units without readings, or from the one that is named on', () => {
    expect(read(memory(18).join('\n')).clean.map(({ serial }) => serial)).toEqual(['K-1', 'K-3']);
    const named = (from: string) =>
      read(memory(18).join('\n'), {}, { columns: { first: 3, sequence: { isBackwards: false, from } } });
    expect(named('k-2').clean.map(({ serial }) => serial)).toEqual(['K-2', 'K-3']);
    expect(named('Z-1').found.objection).toBe(
      '“Z-1” is not in the batch: the log begins with one of its units.',
    );
  });

  it('the newest first is turned round', () => {
    const log = read([HEAD, ...memory(9).reverse()].join('\n'), BATCH_OF_THREE);
    expect(values(log)[0]![0]).toBe(101.5);
  });

  it('over range and a unit in a column of its own are understood; another unit is not converted', () => {
    const withUnit = (unit: string) =>
      read(
        memory(9, (cells, i) => [...cells.slice(0, 3), i === 4 ? 'OL' : cells[3]!, unit]).join('\n'),
        BATCH_OF_THREE,
      );
    expect(values(withUnit('lx'))[0]![4]).toBe('over');
    expect(withUnit('lx').clean).toHaveLength(1);
    expect(withUnit('fc').found.rows[0]!.problems[0]).toMatch(
      /^Line 1, K-1, white .*expected lx.*came “101,5 fc”/,
    );
  });

  it('what cannot be read is told by its own line, and other units can go', () => {
    const text = memory(24, (cells, i) => (i === 10 ? [...cells.slice(0, 3), 'dim'] : cells)).join('\n');
    const log = read(text, BATCH_OF_THREE);
    expect(log.found.rows.flatMap(({ problems }) => problems)).toEqual([
      'Line 11, K-2, white reading at top centre (point 2): expected a number in lx, came “dim”.',
      'Lines 19 to 24, K-3: expected 9 readings, came 6.',
    ]);
    expect(log.clean.map(({ serial }) => serial)).toEqual(['K-1']);
    expect(read(memory(36).join('\n'), BATCH_OF_THREE).found.rows[3]!.problems).toEqual([
      'Lines 28 to 36: no unit of the batch is left for them.',
    ]);
  });

  it(`20 units of 36 readings, and ${MANY}`, () => {
    for (const units of [20, MANY]) {
      const serials = Array.from({ length: units }, (_, i) => `S-${i}`);
      const log = read([HEAD, ...memory(units * 36)].join('\n'), {
        readings: 'nine points in each colour',
        serials,
        filled: serials.map(() => false),
      });
      expect(log.clean).toHaveLength(units);
    }
  });

  it('serial numbers that count up are serial numbers', () => {
    const text = ['1001;900', '1002;880', '1003;870'].join('\n');
    const log = read(text, { readings: 'centre white', serials: ['1001', '1002', '1003', '', ''] });
    expect(log.table.guess.sequence).toBeUndefined();
    expect(log.clean).toHaveLength(3);
  });
});
