import type { PlanBuilder } from '../builder';
import type { RunSetup } from '../runsetup';
import { FORMAT } from './layout';
import { type BudgetStem, PRIMARY_STEMS } from './stems';

/** Range factors that get a digits component of their own; any other factors share one. */
const DECADES = [0.1, 1, 10, 100, 1000] as const;

/**
 * How much an offset common to all readings of one range weighs in the mean of nine, range by range: readings in
 * one range share it, readings in different ranges do not.
 */
export function putDigits(b: PlanBuilder, row: number, { colour, black }: RunSetup): number {
  b.put(`A${row}`, { role: 'label', value: 'Weight of the digits' });
  b.wide(`B${row}:C${row}`, { role: 'label', value: 'in white' });
  b.wide(`E${row}:F${row}`, { role: 'label', value: colour === 'none' ? '' : 'in colour' });
  b.wide(`G${row}:H${row}`, { role: 'label', value: black ? 'in black' : '' });
  b.wide(`J${row}:L${row}`, {
    role: 'check',
    value: 'offset of a range × part of the nine readings taken in it × correction',
  }).height(row, 26);
  [...DECADES, 'other' as const].forEach((range, i) => {
    const r = row + 1 + i;
    b.put(`A${r}`, {
      role: 'label',
      value: range === 'other' ? '    in any other range' : `    in range × ${range}`,
    });
    b.put(`B${r}`, { role: 'derived', formula: `=${weight('White', range)}`, format: FORMAT.mean });
    const inColour = colour === 'none' ? '0' : PRIMARY_STEMS.map((stem) => weight(stem, range)).join('+');
    b.put(`E${r}`, { role: 'derived', formula: `=${inColour}`, format: FORMAT.mean });
    if (black)
      b.put(`G${r}`, { role: 'derived', formula: `=${weight('Black', range)}`, format: FORMAT.mean });
  });
  if (black)
    b.innerName(
      'DigitsBlack',
      `G${row + 1}:G${row + 6}`,
      'Weight of the meter’s digits in black, range by range',
    );
  b.innerName(
    'DigitsWhite',
    `B${row + 1}:B${row + 6}`,
    'Weight of the meter’s digits in white, range by range',
  );
  b.innerName(
    'DigitsColour',
    `E${row + 1}:E${row + 6}`,
    'Weight of the meter’s digits in colour, range by range',
  );
  return row + 7;
}

function weight(stem: BudgetStem, range: number | 'other'): string {
  const inRange = (r: number) => `${r}*COUNTIF(${stem}Range,${r})`;
  // Rounded: what tenths leave when they are added up and taken away again is no weight.
  const rest = () => `ROUND(SUM(${stem}Range)-${DECADES.map(inRange).join('-')},9)`;
  const sum = range === 'other' ? rest() : inRange(range);
  // The black field is read with the correction for white.
  return `${sum}/9*${stem === 'Black' ? 'White' : stem}Correction`;
}
