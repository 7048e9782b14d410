import type { PlanBuilder } from '../builder';
import type { RunSetup } from '../runsetup';
import { FORMAT } from './layout';
import { type BudgetStem, PRIMARY_STEMS } from './stems';

/** Range factors that get a digits component of their own; any other factors share one. */
const DECADES = [0.1, 1, 10, 100, 1000] as const;

/**
 * How much an offset common to all readings of one range weighs in the mean of nine, range by range: readings in
 * one range share it, readings in different ranges do not. The ambient reading has it as well, and takes it off again.
 */
export function putDigits(b: PlanBuilder, row: number, setup: RunSetup): number {
  const { colour, black, checkerboard } = setup;
  const columns: readonly (readonly [column: string, head: string, name: string, weight: Weight])[] = [
    ['B', 'in white', 'DigitsWhite', (range) => `${weight('White', range)}${less(setup, range, ['White'])}`],
    ['C', 'min, max', 'DigitsUniformity', (range) => uniformity(setup, range)],
    ...(checkerboard
      ? ([['D', 'on board', 'DigitsBoard', (range: Range) => board(setup, range)]] as const)
      : []),
    [
      'E',
      colour === 'none' ? '' : 'in colour',
      'DigitsColour',
      (range) =>
        colour === 'none'
          ? '0'
          : `${PRIMARY_STEMS.map((stem) => weight(stem, range)).join('+')}${less(setup, range, PRIMARY_STEMS)}`,
    ],
    ...(black
      ? ([
          [
            'G',
            'in black',
            'DigitsBlack',
            (range: Range) => `${weight('Black', range)}${less(setup, range, ['Black'])}`,
          ],
        ] as const)
      : []),
  ];
  b.put(`A${row}`, { role: 'label', value: 'Weight of the digits' });
  for (const [column, value] of columns) b.put(`${column}${row}`, { role: 'label', value });
  b.wide(`J${row}:P${row}`, {
    role: 'check',
    value: 'offset of a range × part of the readings taken in it × correction, less that of ambient',
  }).height(row, 26);
  const ranges: readonly Range[] = [...DECADES, 'other'];
  ranges.forEach((range, i) => {
    const r = row + 1 + i;
    b.put(`A${r}`, {
      role: 'label',
      value: range === 'other' ? '    in any other range' : `    in range × ${range}`,
    });
    for (const [column, , , of] of columns)
      b.put(`${column}${r}`, { role: 'derived', formula: `=${of(range)}`, format: FORMAT.mean });
  });
  for (const [column, head, name] of columns)
    b.innerName(name, `${column}${row + 1}:${column}${row + 6}`, `Weight of the meter’s digits, ${head}`);
  return row + 7;
}

type Range = (typeof DECADES)[number] | 'other';
type Weight = (range: Range) => string;

/** The sum of a grid's range factors that are this one. */
function inRange(grid: string, range: Range): string {
  const of = (r: number) => `${r}*COUNTIF(${grid},${r})`;
  // Rounded: what tenths leave when they are added up and taken away again is no weight.
  return range === 'other' ? `ROUND(SUM(${grid})-${DECADES.map(of).join('-')},9)` : of(range);
}

/** The black field is read with the correction for white. */
const correction = (stem: BudgetStem) => `${stem === 'Black' ? 'White' : stem}Correction`;

function weight(stem: BudgetStem, range: Range): string {
  return `${inRange(`${stem}Range`, range)}/9*${correction(stem)}`;
}

/** What the ambient reading takes off each field, with the field's correction: read once for all points, or at each of nine. */
function less({ ambient }: RunSetup, range: Range, stems: readonly BudgetStem[]): string {
  if (ambient === 'none') return '';
  const all = stems.map(correction).join('+');
  return `-${inRange('AmbientRange', range)}/${ambient === 'once' ? 1 : 9}*${stems.length === 1 ? all : `(${all})`}`;
}

/** Of the darkest point, less that of the brightest as often as the uniformity says. */
function uniformity(setup: RunSetup, range: Range): string {
  const V = 'UniformityMinMaxPlain';
  const { ambient } = setup;
  const at = (stem: 'Darkest' | 'Brightest') => {
    const read = `${inRange(`${stem}Range`, range)}*WhiteCorrection`;
    if (ambient === 'none') return read;
    const room = ambient === 'once' ? 'AmbientRange' : `${stem}AmbientRange`;
    return `(${read}-${inRange(room, range)}*WhiteCorrection)`;
  };
  return `IF(COUNT(${V})=0,0,${at('Darkest')}-${V}*${at('Brightest')})`;
}

/** Of all tiles alike. */
function board(setup: RunSetup, range: Range): string {
  return `${inRange('BoardRange', range)}*WhiteCorrection${less(setup, range, ['White'])}`;
}
