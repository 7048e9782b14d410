import type { IlluminanceUnit, LengthUnit } from '../../src/photometry/units';

/** Spellings people use for the units of the pane's fields, in lower case. */
const LENGTHS: Readonly<Record<string, LengthUnit>> = {
  m: 'm',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  cm: 'cm',
  centimetre: 'cm',
  centimetres: 'cm',
  centimeter: 'cm',
  centimeters: 'cm',
  mm: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  ft: 'ft',
  foot: 'ft',
  feet: 'ft',
  "'": 'ft',
  '\u2019': 'ft',
  '\u2032': 'ft',
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '\u201d': 'in',
  '\u2033': 'in',
  "''": 'in',
};

const ILLUMINANCES: Readonly<Record<string, IlluminanceUnit>> = {
  lx: 'lx',
  lux: 'lx',
  fc: 'fc',
  ftc: 'fc',
  'ft-c': 'fc',
  'ft.c': 'fc',
  footcandle: 'fc',
  footcandles: 'fc',
  'foot-candle': 'fc',
  'foot-candles': 'fc',
  'foot candles': 'fc',
};

const OTHERS: Readonly<Record<string, string>> = { lm: 'lm', lumen: 'lm', lumens: 'lm', '%': '%' };

/** The unit a spelling stands for; undefined for anything else. "inches", `"` and "in." are "in". */
export function unitOf(spelling: string): string | undefined {
  const word = spelling.trim().toLowerCase().replace(/\.$/, '');
  return LENGTHS[word] ?? ILLUMINANCES[word] ?? OTHERS[word];
}

export function isLengthUnit(unit: string): unit is LengthUnit {
  return Object.values(LENGTHS).includes(unit as LengthUnit);
}
