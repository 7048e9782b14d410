import { fields } from '../form/field';

/** Names as typed, one a line. */
export const unitsIn = (text: string): string[] =>
  text
    .split('\n')
    .map((name) => name.trim())
    .filter(Boolean);

/** What a spot check has beside the meter of the run form. */
export const SPOT = fields<'title' | 'names' | 'order' | 'seed' | 'reference' | 'ambient'>({
  title: { kind: 'text', label: 'Name of the spot check' },
  names: {
    kind: 'lines',
    rows: 4,
    label: 'Units, one a line',
    hint: ({ names }) => `${unitsIn(names).length} of 2 to 12 units`,
  },
  order: {
    kind: 'choice',
    label: 'Order',
    start: 'listed',
    choices: [
      ['listed', 'as listed'],
      ['drawn', 'drawn by lot'],
    ],
  },
  seed: {
    kind: 'text',
    label: 'Seed of the draw',
    hint: 'Kept on the sheet: with it anybody can repeat the draw.',
    applies: ({ order }) => order === 'drawn',
  },
  reference: {
    kind: 'choice',
    label: 'Figures relative to',
    start: 'first',
    choices: [
      ['first', 'the first unit of the list'],
      ['best', 'the brightest unit'],
    ],
  },
  ambient: {
    kind: 'choice',
    label: 'Ambient light',
    start: 'yes',
    choices: [
      ['yes', 'read once and taken off'],
      ['no', 'not measured'],
    ],
  },
});
export type SpotField = keyof typeof SPOT;
