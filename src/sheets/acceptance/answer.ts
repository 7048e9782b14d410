import type { PlanBuilder } from '../builder';
import { RED } from '../style';
import { guard } from './verdict';

/** Rows that stay on the screen: title, verdict and the unit that is next. */
export const FROZEN_ROWS = 2;

const SENTENCE =
  '"Lot "&Lot&": "&Inspected&" of "&SampleSize&" units to be measured from a lot of "&LotSize&" are measured, "&Nonconforming&" of them not conforming; the plan accepts with at most "&(RejectNumber-1)&". "&IF(LotVerdict="not finished","The lot is not decided yet.","The lot is "&LotVerdict&"."&IF(AND(LotVerdict="accepted",Nonconforming>AcceptNumber)," These are more than the acceptance number "&AcceptNumber&": the next lot is inspected normally.",""))';

const NEXT =
  'IF(COUNTIF(UnitDecision,"to be measured")=0,"Every unit of the draw is decided.","Next to be measured: "&INDEX(Serials,MATCH("to be measured",UnitDecision,0)))';

/** The verdict, the unit that is next, and the verdict in a sentence, before anything else. Returns the first row below. */
export function putAnswer(b: PlanBuilder, row: number): number {
  b.put(`A${row}`, { role: 'label', value: 'Verdict on the lot' });
  b.wide(`B${row}:E${row}`, { role: 'answer', formula: '=LotVerdict' }).height(row, 24);
  b.wide(`F${row}:J${row}`, { role: 'answer', formula: guard(NEXT) });
  b.alert({ range: `B${row}:E${row}`, begins: 'rejected', ...RED });
  b.wide(`A${row + 1}:J${row + 1}`, { role: 'line', formula: guard(SENTENCE) }).height(row + 1, 34);
  b.name('LotSentence', `A${row + 1}`, 'The verdict in a sentence');
  return row + 2;
}
