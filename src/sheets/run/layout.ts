/*
 * Where things stand on a run sheet: labels in A, what the display showed in B:D, range factors in F:H, net
 * illuminances in J:L. Grids lie as seen facing the screen. Set-up fields stand in two pairs, A|B:D and F:H|J:L.
 */
export const COLUMNS: Readonly<Record<string, number>> = {
  A: 30,
  B: 11,
  C: 11,
  D: 11,
  E: 10,
  F: 9,
  G: 9,
  H: 9,
  I: 2,
  J: 11,
  K: 11,
  L: 11,
};

export const FORMAT = {
  text: '@',
  date: 'yyyy-mm-dd',
  general: 'General',
  /** Mean of numbers on a display, and weights: a few more digits than the display has. */
  mean: '0.0##',
  lux: '#,##0.00',
  lumens: '#,##0.0',
  ratio: '0.000',
  percent: '0.0 %',
  metres: '0.000 "m"',
  area: '0.0000 "m²"',
  contrast: '#,##0" : 1"',
  luminance: '#,##0.00',
  factor: 'General',
  /** What stands there is shown in another cell. */
  unseen: ';;;',
} as const;
