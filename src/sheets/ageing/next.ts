import type { PlanBuilder } from '../builder';
import { FORMAT } from '../run/layout';
import { AT_IT } from './crossings';

/**
 * When to measure again: the rule of `procurement/ageing/next.ts` in plain formulas. It holds against the need,
 * or against 70 % where no need is stated. Returns the first row below.
 */
export function putNext(
  b: PlanBuilder,
  row: number,
  cells: { readonly above: string; readonly seen: string; readonly ahead: string },
): number {
  const which = 'IF(COUNT(NeededOutput)=1,3,1)';
  const of = (range: string) => `INDEX(${range},${which})`;
  const isReached = `${of(cells.above)}${AT_IT}`;
  const earliest = `MIN(MAX(0,${of(cells.seen)}+${of(cells.ahead)}),CapHours)`;
  const guard = (value: string) =>
    `=IF(AgeingState<>"complete",AgeingState,IF(COUNT(HoursPerYear)=0,"hours a year missing",${value}))`;
  b.wide(`A${row}:J${row}`, {
    role: 'heading',
    value:
      'Next measurement: half-way to the earliest hour at which the need (or 70 %) may not be met; at least 100 h, at most a year',
  });
  b.put(`A${row + 1}`, { role: 'label', value: 'Earliest hour that matters' });
  b.wide(`B${row + 1}:C${row + 1}`, {
    role: 'derived',
    format: '#,##0',
    formula: guard(`IF(${isReached},"reached",IF(COUNT(${of(cells.ahead)})=0,"not known",${earliest}))`),
  });
  b.put(`A${row + 2}`, { role: 'label', value: 'Measure again after, h of use' });
  const half = `(B${row + 1}-LastHours)/2`;
  b.wide(`B${row + 2}:C${row + 2}`, {
    role: 'twin',
    format: '#,##0',
    formula: guard(
      `IF(COUNT(B${row + 1})=0,0,IF(${half}<=0,0,IF(${half}>=HoursPerYear,HoursPerYear,MAX(100,${half}))))`,
    ),
  });
  b.put(`A${row + 3}`, { role: 'label', value: 'Measure again at, h' });
  b.wide(`B${row + 3}:C${row + 3}`, {
    role: 'twin',
    format: '#,##0',
    formula: `=IF(COUNT(B${row + 2})=0,B${row + 2},LastHours+B${row + 2})`,
  });
  b.put(`A${row + 4}`, { role: 'label', value: 'About on' });
  b.wide(`B${row + 4}:C${row + 4}`, {
    role: 'twin',
    format: FORMAT.date,
    // 365.25 days in a year, on average.
    formula: `=IF(COUNT(B${row + 2})=0,B${row + 2},IF(COUNT(LastDays)=0,"day of the last one unknown",MAX(LastDays)+INT(B${row + 2}/HoursPerYear*365.25)))`,
  });
  const due = `IF(COUNT(B${row + 1})=1,"within the interval the light may already have fallen to what is needed",IF(B${row + 1}="reached","by the fit the light is no more than what is needed","too much scatter to tell whether the light is still above what is needed"))`;
  b.wide(`D${row + 3}:J${row + 3}`, {
    role: 'check',
    formula: `=IF(COUNT(B${row + 2})=0,"",IF(B${row + 2}=0,"due now: "&${due},"by plain formulas only; a rule of ours, no standard"))`,
  });
  b.name('NextAfter', `B${row + 2}`, 'Measure again after so many hours of use');
  b.name('NextHours', `B${row + 3}`, 'Hours of the source at which to measure again');
  b.name('NextDay', `B${row + 4}`, 'Day this falls on at the planned use');
  return row + 5;
}
