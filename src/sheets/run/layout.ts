/*
 * Where things stand on a run sheet: labels in A, and up to four grids of three columns beside it, as seen facing the
 * screen; a grid's net illuminances and range factors stand below its readings. Set-up fields stand in two pairs, A|B:E
 * and F:I|J:P. So wide, the sheet fits beside the pane on a window of usual width, and on a page.
 */
const GRID = 7.5;
const GAP = 1;
export const COLUMNS: Readonly<Record<string, number>> = {
  A: 26.25,
  B: GRID,
  /** Shapes of a budget stand in C, units of what is uncertain in D. */
  C: 8.75,
  D: 7.75,
  E: 6.5,
  F: GRID,
  G: GRID,
  H: GRID,
  I: GAP,
  J: GRID,
  K: GRID,
  L: GRID,
  M: GAP,
  N: GRID,
  O: GRID,
  P: 7.25,
};

/** First columns of the grids that stand side by side. */
export const GRID_COLUMNS = ['B', 'F', 'J', 'N'] as const;

export const FORMAT = {
  text: '@',
  date: 'yyyy-mm-dd',
  general: 'General',
  /** Mean of numbers on a display, and weights: more digits than the display has. */
  display: '0.0#',
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
