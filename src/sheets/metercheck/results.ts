import type { PlanBuilder } from '../builder';
import type { RunResult } from '../run/results';
import { putResults } from '../run/resultsblock';
import { type Compared, foundOf } from './errors';
import { CHECK_REPEATS, CHECK_ROUNDS } from './setup';

const PART = '0.00 %';

/** What the check is made for, first on its sheet. */
export function putFound(b: PlanBuilder, row: number): number {
  return putResults(b, row, RESULTS, {
    title: 'Found, of a reading',
    agreement: 'Agreement',
    isPlainNamed: true,
    last: 'L',
  });
}

const scatter = (name: 'Repeatability' | 'Placing', readings: string, times: string): RunResult => {
  const value = `SQRT(DEVSQ(${readings})/${CHECK_REPEATS - 1})/AVERAGE(${readings})`;
  return {
    name,
    label: name === 'Placing' ? 'Placing and tilt ±' : 'Repeatability of one reading',
    unit: name === 'Placing' ? 'limit' : 's',
    format: PART,
    needs: [{ range: readings, count: CHECK_REPEATS }],
    custom: `LIGHT.REPEATABILITY(${readings})${times}`,
    twin: refused(`MIN(${readings})<=0`, `${value}${times}`),
    meaning: name === 'Placing' ? 'meter put back, as a half-width' : 'standard deviation ÷ mean',
    fn: 'REPEATABILITY',
  };
};
/** A reading of 0 is none, for the plain formula as for the function. */
const refused = (when: string, value: string) => `IF(${when},"see remarks",${value})`;

const limit = (id: Compared, label: string, meaning: string): RunResult => {
  const [found, expected] = foundOf(id);
  return {
    name: `${id}Limit`,
    label,
    unit: 'limit',
    format: PART,
    needs: [{ range: `${id}Error`, count: CHECK_ROUNDS }],
    custom: `LIGHT.ERRORLIMIT(${found},${expected},${id}Half)`,
    twin: `ABS(${id}Mean)+${id}U`,
    meaning,
    fn: 'ERRORLIMIT',
  };
};

/** √(n − 1 over n − 3) times √3, spelt out. */
const WIDENED = `*SQRT(3*${CHECK_REPEATS - 1}/${CHECK_REPEATS - 3})`;

const RESULTS: readonly RunResult[] = [
  scatter('Repeatability', 'RepeatReadings', ''),
  scatter('Placing', 'PlacedReadings', WIDENED),
  limit('Ranges', 'Step between ranges ±', 'mean error + U'),
  limit('Distances', 'Levels, by distance ±', 'mean error + U'),
  limit('Sums', 'Levels, by parts and whole ±', 'mean error + U'),
  {
    name: 'Linearity',
    label: 'Linearity and range step ±',
    unit: 'limit',
    format: PART,
    needs: [
      { range: 'RangesLimitPlain', count: 1, otherwise: 'needs part 3' },
      { range: 'LevelLimit', count: 1, otherwise: 'needs part 4 or 5' },
    ],
    custom: 'LIGHT.COMBINEDU(LinearityParts)',
    twin: 'SQRT(SUMSQ(LinearityParts))',
    meaning: '√(step² + larger of the levels²)',
    fn: 'COMBINEDU',
  },
];

/** The two that linearity is made of, one below the other. */
export function putLinearityParts(b: PlanBuilder, row: number): number {
  b.put(`A${row}`, { role: 'label', value: 'Step between ranges ±, as above' });
  b.put(`B${row}`, {
    role: 'derived',
    formula: '=IF(COUNT(RangesLimitPlain)=0,"",RangesLimitPlain)',
    format: PART,
  });
  b.put(`A${row + 1}`, { role: 'label', value: 'Larger of the two of levels ±' });
  b.put(`B${row + 1}`, {
    role: 'derived',
    formula:
      '=IF(COUNT(DistancesLimitPlain,SumsLimitPlain)=0,"",MAX(N(DistancesLimitPlain),N(SumsLimitPlain)))',
    format: PART,
  });
  b.name('LevelLimit', `B${row + 1}`, 'Larger of the two limits of levels');
  b.name('LinearityParts', `B${row}:B${row + 1}`, 'Limits that linearity is made of');
  return row + 2;
}
