import { codeLetter } from '../../procurement/lot/letter';
import { LISTED_AQLS, type MasterPlan, masterPlan } from '../../procurement/lot/master';
import { planSource, type SamplingPlan } from '../../procurement/lot/plan';
import { columnName } from '../address';
import type { PlanBuilder } from '../builder';

/** Smallest lot of each range of the standard that a listed lot can be in. */
const SMALLEST_LOTS = [2, 9, 16, 26, 51, 91, 151, 281];

const TABLES: readonly (readonly [title: string, name: string, of: keyof MasterPlan])[] = [
  ['Sample size n', 'PlanSizes', 'sampleSize'],
  ['Acceptance number Ac', 'PlanAccepts', 'accept'],
  ['Rejection number Re', 'PlanRejects', 'reject'],
];

/**
 * The plans of one level and severity by AQL and size of the lot, arrows followed, as plain values: what the plain
 * formulas look up, and what a reader can hold against a printed standard. Returns the first row below.
 */
export function putMaster(b: PlanBuilder, row: number, plan: SamplingPlan): number {
  b.wide(`A${row}:J${row}`, { role: 'heading', value: `Plans looked up above. ${planSource(plan)}` });
  const letters = SMALLEST_LOTS.map((lot) => {
    const letter = codeLetter(lot, plan.level);
    if (!letter.ok) throw new Error('Lots of the table are sound');
    return letter.value;
  });
  const last = columnName(letters.length);
  b.put(`A${row + 1}`, { role: 'label', value: 'Lots from' });
  b.put(`A${row + 2}`, { role: 'label', value: 'Code letter' });
  letters.forEach((letter, i) => {
    const column = columnName(i + 1);
    b.put(`${column}${row + 1}`, { role: 'derived', value: SMALLEST_LOTS[i]! });
    b.put(`${column}${row + 2}`, { role: 'derived', value: letter });
  });
  b.name('LotsFrom', `B${row + 1}:${last}${row + 1}`, 'Smallest lot of the columns of the plans').name(
    'LotLetters',
    `B${row + 2}:${last}${row + 2}`,
    'Code letter of the columns of the plans',
  );
  let r = row + 3;
  for (const [title, name, of] of TABLES) {
    b.put(`A${r}`, { role: 'label', value: `${title} by AQL` });
    const [first, end] = [r + 1, r + LISTED_AQLS.length];
    LISTED_AQLS.forEach((aql, i) => {
      // Those of the first are looked up; the others are words, which a program would take for numbers.
      b.put(
        `A${first + i}`,
        name === 'PlanSizes'
          ? { role: 'unit', value: aql }
          : { role: 'unit', value: `${aql} %`, format: '@' },
      );
      letters.forEach((letter, c) => {
        const value = masterPlan(letter, aql, plan.severity)[of];
        b.put(`${columnName(c + 1)}${first + i}`, { role: 'derived', value });
      });
    });
    b.name(name, `B${first}:${last}${end}`, `${title} by AQL and size of the lot`);
    if (name === 'PlanSizes') b.name('AqlRows', `A${first}:A${end}`, 'AQL of the rows of the plans');
    r = end + 1;
  }
  return r;
}
