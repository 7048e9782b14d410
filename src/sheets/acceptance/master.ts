import { CODE_LETTERS } from '../../procurement/lot/letter';
import { LISTED_AQLS, masterPlan } from '../../procurement/lot/master';
import type { PlanBuilder } from '../builder';

/** Smallest lot of each letter that a listed lot can have (general inspection level II). */
const SMALLEST_LOT = [2, 9, 16, 26, 51, 91, 151, 281];
const COLUMNS = 'BCDEFGHI';

/**
 * The plans by letter and AQL with arrows followed, as plain values: what the plain formulas look up, and what a
 * reader can hold against a printed standard. Returns the first row below.
 */
export function putMaster(b: PlanBuilder, row: number, source: string): number {
  b.wide(`A${row}:L${row}`, { role: 'heading', value: `Plans looked up above. ${source}` });
  const sizes = putGrid(
    b,
    row + 1,
    'Sample size',
    'SampleSizes',
    (letter, aql) => masterPlan(letter, aql).sampleSize,
  );
  return putGrid(
    b,
    sizes,
    'Acceptance number',
    'AcceptNumbers',
    (letter, aql) => masterPlan(letter, aql).accept,
  );
}

function putGrid(
  b: PlanBuilder,
  row: number,
  title: string,
  name: string,
  value: (letter: (typeof CODE_LETTERS)[number], aql: (typeof LISTED_AQLS)[number]) => number,
): number {
  const isFirst = name === 'SampleSizes';
  b.put(`A${row}`, { role: 'label', value: `${title}, lot by AQL` });
  LISTED_AQLS.forEach((aql, c) => {
    b.put(`${COLUMNS[c]}${row}`, { role: 'unit', value: aql });
  });
  SMALLEST_LOT.forEach((lot, i) => {
    const r = row + 1 + i;
    const letter = CODE_LETTERS[i]!;
    b.put(`A${r}`, { role: 'unit', value: lot });
    b.put(`J${r}`, { role: 'unit', value: letter });
    LISTED_AQLS.forEach((aql, c) => {
      b.put(`${COLUMNS[c]}${r}`, { role: 'derived', value: value(letter, aql) });
    });
  });
  const last = row + SMALLEST_LOT.length;
  b.name(name, `B${row + 1}:I${last}`, `${title} by lot size and AQL`);
  if (isFirst) {
    b.name('PlanAqls', `B${row}:I${row}`, 'AQL of the columns of the plans')
      .name('PlanLots', `A${row + 1}:A${last}`, 'Smallest lot of the rows of the plans')
      .name('PlanLetters', `J${row + 1}:J${last}`, 'Code letter of the rows of the plans');
  }
  return last + 1;
}
