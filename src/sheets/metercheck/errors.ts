import type { PlanBuilder } from '../builder';
import { DOF_FORMAT, INFINITE } from '../run/lines/line';
import { tFactor } from '../run/verdict';
import { CHECK_ROUNDS } from './setup';
import { FINITE } from './tables';

/** A part of the check that compares rounds of two readings. */
export type Compared = 'Ranges' | 'Distances' | 'Sums';

const COLUMNS: Readonly<Record<Compared, readonly [found: string, expected: string]>> = {
  Ranges: ['HighValue', 'LowValue'],
  Distances: ['FarValue', 'NearValue'],
  Sums: ['AllValue', 'PartsValue'],
};
export const foundOf = (id: Compared) => COLUMNS[id];

/** Half a step of a display, as a part of what it shows. */
const step = (ranges: string, value: string) => `MeterDigit*MAX(${ranges})/2/AVERAGE(${value})`;
const distance = (which: 'Near' | 'Far') =>
  `2*${which}Distance*DistanceHalf/1000/(${which}Distance^2+${FINITE})`;
/** A light and its dark, each rounded, as a part of the light. */
const pair = (which: 'Near' | 'Far') =>
  `MeterDigit*MAX(${which}Range)/SQRT(2)*(${which}Distance^2+${FINITE})/AVERAGE(${which}Value)`;

/** Half-width common to all rounds; without "=". */
const HALF: Readonly<Record<Compared, { readonly formula: string; readonly words: string }>> = {
  Ranges: {
    formula: `SQRT((${step('LowRange', 'LowValue')})^2+(${step('HighRange', 'HighValue')})^2)`,
    words: 'half a step of each display: a steady light rounds alike in every round',
  },
  Distances: {
    formula: `SQRT((${pair('Near')})^2+(${pair('Far')})^2+(${distance('Near')})^2+(${distance('Far')})^2+((SourceDiameter/2000)^2*(1/NearDistance^2-1/FarDistance^2))^2)`,
    words: 'half a step of each display, both distances, and the term of the lamp’s size as a whole',
  },
  Sums: {
    // W − b − (R + G + B − 3b): each display once, the dark twice.
    formula: 'MeterDigit/2*SQRT(MAX(AllRange)^2+7*MAX(PartsRange)^2)/AVERAGE(PartsValue)',
    words: 'half a step of each display, twice for the dark',
  },
};

/** What a part comes to on the way to its limit: mean error, scatter, half-width, degrees of freedom, U. */
export function putErrors(b: PlanBuilder, row: number, id: Compared): number {
  const n = CHECK_ROUNDS;
  const ready = (value: string) => `=IF(COUNT(${id}Error)<${n},"",${value})`;
  const mean = `${id}Scatter^2/${n}`;
  const variance = `(${mean}+${id}Half^2/3)`;
  const put = (r: number, label: string, name: string, formula: string, format: string, words: string) => {
    b.put(`A${r}`, { role: 'label', value: label });
    b.put(`B${r}`, { role: 'derived', formula: ready(formula), format });
    b.wide(`C${r}:K${r}`, { role: 'check', value: words });
    b.name(name, `B${r}`, label);
  };
  const part = '0.000 %';
  put(row, 'Mean error', `${id}Mean`, `AVERAGE(${id}Error)`, part, 'not corrected for');
  put(
    row + 1,
    'Scatter of the error',
    `${id}Scatter`,
    `SQRT(DEVSQ(${id}Error)/${n - 1})`,
    part,
    `of one round, ν = ${n - 1}`,
  );
  put(row + 2, 'Common to all rounds ±', `${id}Half`, HALF[id].formula, part, HALF[id].words);
  put(
    row + 3,
    'Degrees of freedom',
    `${id}Nu`,
    `IF(${id}Scatter=0,${INFINITE},${variance}^2/((${mean})^2/${n - 1}))`,
    DOF_FORMAT,
    'Welch–Satterthwaite',
  );
  put(
    row + 4,
    'U of the mean error',
    `${id}U`,
    `(${tFactor(`INT(${id}Nu*1.000000001)`)})*SQRT(${variance})`,
    part,
    'k × √(scatter² ÷ rounds + half-width² ÷ 3)',
  );
  return row + 5;
}
