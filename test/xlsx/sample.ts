import { refersTo } from '../../src/sheets/address';
import { type Book, type BookCell, type BookSheet, EMPTY_SHEET, type Style } from '../../src/sheets/book';
import type { Role } from '../../src/sheets/plan';
import { styleOf } from '../../src/sheets/style';

/** A sheet with nothing on it; tests give what they are about. */
export function sheetWith(part: Partial<BookSheet>): BookSheet {
  return { ...EMPTY_SHEET, name: 'Sheet', ...part };
}

export function bookWith(...sheets: Partial<BookSheet>[]): Book {
  const whole = sheets.map((sheet, at) => sheetWith({ name: `Sheet ${at + 1}`, ...sheet }));
  return { sheets: whole, names: [], active: whole[0]!.name };
}

/** Illuminance in lx at nine points; invented. */
const READINGS = [
  [1912.5, 2105, 1930.25],
  [2240, 2481.75, 2262.5],
  [1875, 2060.5, 1903],
];

/**
 * A sheet shaped like a measuring sheet (invented data): set-up, a 3 × 3 grid, results by custom function and by
 * plain formula, notes, rules, protection, one printed page.
 */
export function measuringSheet(name: string): BookSheet {
  const cell = (role: Role, value: BookCell['value'], format?: string): BookCell => ({
    value,
    style: styleOf({ role, format }),
  });
  const formula = (role: Role, text: string, value: BookCell['value']): BookCell => ({
    value,
    formula: text,
    style: styleOf({ role, format: '0.0' }),
  });
  const grid: Record<string, BookCell> = {};
  READINGS.forEach((row, r) => {
    row.forEach((value, c) => {
      grid[`${'BCD'[c]}${r + 9}`] = cell('reading', value, '#,##0.0');
    });
  });
  const mean = READINGS.flat().reduce((sum, value) => sum + value, 0) / 9;
  const titled: Style = styleOf({ role: 'title' });
  return sheetWith({
    name,
    cells: {
      A1: { value: 'Light output of one projector', style: titled },
      A3: cell('heading', 'Set-up'),
      B3: cell('heading', null),
      C3: cell('heading', null),
      D3: cell('heading', null),
      A4: cell('label', 'Reading room'),
      B4: cell('input', '=North wing, room 2'),
      A5: cell('label', 'Image width'),
      B5: cell('input', 2.4, '0.000'),
      C5: cell('unit', 'm'),
      A6: cell('label', 'Image height'),
      B6: cell('input', 1.5, '0.000'),
      C6: cell('unit', 'm'),
      A8: cell('heading', 'White, as seen from the audience'),
      B8: cell('heading', null),
      C8: cell('heading', null),
      D8: cell('heading', null),
      ...grid,
      A13: cell('label', 'Mean illuminance'),
      B13: formula('derived', '=AVERAGE(WhiteReadings)', mean),
      C13: cell('unit', 'lx'),
      A14: cell('label', 'Light output'),
      B14: formula('result', '=LIGHT.OUTPUT(WhiteReadings,B5,B6)', mean * 3.6),
      C14: cell('unit', 'lm'),
      D14: formula('twin', '=AVERAGE(WhiteReadings)*B5*B6', mean * 3.6),
      A15: cell('check', 'ok'),
      A16: cell('note', 'Method: mean illuminance at nine points times image area. Invented data.'),
    },
    names: [
      { name: 'LightSheet', refersTo: '="run;1;k3f9a2"', hidden: true },
      {
        name: 'WhiteReadings',
        refersTo: refersTo(name, 'B9:D11'),
        comment: 'Illuminance at nine points, lx',
      },
    ],
    validations: [
      {
        range: 'B9:D11',
        rule: { type: 'number', min: 0, max: 200_000 },
        prompt: { title: 'White', message: 'Illuminance in lx, 0 to 200 000.\nAs on the display.' },
        refusal: { title: 'Not a reading', message: 'Type a number from 0 to 200 000.', style: 'stop' },
      },
      {
        range: 'B5:B6',
        rule: { type: 'number', min: 0.1 },
        prompt: { title: 'Image', message: 'Metres' },
        refusal: { title: 'Not a length', message: 'At least 0.1 m.', style: 'warning' },
      },
    ],
    scales: [{ range: 'B9:D11', low: '#DCE6F2', high: '#FFF3C4' }],
    alerts: [{ range: 'A15', begins: 'differs', fill: '#FFE3E3', color: '#7A1F1F' }],
    notes: [{ at: 'B9', text: 'Top left as seen from the audience.' }],
    merges: ['A1:D1', 'A16:D16'],
    columns: { A: 24, B: 12, C: 12, D: 12 },
    rows: { 1: 26, 16: 32 },
    isProtected: true,
    freeze: { rows: 1, columns: 0 },
    gridlines: false,
    print: { area: 'A1:D16', orientation: 'portrait', wide: 1, tall: 1 },
  });
}
