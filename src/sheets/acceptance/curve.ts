import type { PlanBuilder } from '../builder';
import { agreement } from '../phrases/agree';

/** Points of the curve, from a perfect lot on. */
const POINTS = 21;
/** So many of them, one unit apart. */
const SINGLE = 10;
/** With so many a lot that one sheet lists is accepted at most (letter J, AQL 10). */
const MOST_ACCEPTED = 14;

/** Σ of the hypergeometric terms a spreadsheet's own function can give; outside its bounds it errs, so they are kept. */
function probability(D: string): string {
  const terms = Array.from({ length: MOST_ACCEPTED + 1 }, (_, i) => {
    const inside = `AND(RejectNumber>${i},${D}>=${i},SampleSize>=${i},SampleSize-${i}<=LotSize-${D})`;
    return `IF(${inside},HYPGEOMDIST(${i},SampleSize,${D},LotSize),0)`;
  });
  return `IF(${D}=0,1,${terms.join('+')})`;
}

/** How probably the plan accepts a lot of this size, by how many of it do not conform: a table and its chart. */
export function putCurve(b: PlanBuilder, row: number, lotSize: number): number {
  b.wide(`A${row}:L${row}`, {
    role: 'heading',
    value: 'How probably the lot is accepted, by what it holds (exact for one lot)',
  });
  ['Nonconforming in the lot', 'part', 'LIGHT', 'plain', 'the two'].forEach((value, i) => {
    b.put(`${'ABCDE'[i]}${row + 1}`, { role: 'unit', value });
  });
  // Unit by unit first, where a sample tells lots apart; then in steps to about half the lot.
  const step = `MAX(1,ROUNDUP((LotSize/2-${SINGLE})/${POINTS - 1 - SINGLE},0))`;
  for (let k = 0; k < POINTS; k++) {
    const r = row + 2 + k;
    const D = `A${r}`;
    const nonconforming = k <= SINGLE ? String(k) : `(${SINGLE}+${k - SINGLE}*${step})`;
    const guard = (value: string) => `=IF(COUNT(${D})=0,"",${value})`;
    b.put(D, {
      role: 'derived',
      format: '0',
      formula: `=IF(COUNT(SampleSize,RejectNumber)<2,"",IF(${nonconforming}>LotSize,"",${nonconforming}))`,
    });
    b.put(`B${r}`, { role: 'derived', format: '0.0 %', formula: guard(`${D}/LotSize`) });
    b.put(`C${r}`, {
      role: 'called',
      format: '0.0 %',
      formula: guard(`LIGHT.ACCEPTPROBABILITY(LotSize,SampleSize,RejectNumber-1,${D})`),
    });
    b.put(`D${r}`, { role: 'twin', format: '0.0 %', formula: guard(probability(D)) });
    b.put(`E${r}`, { role: 'check', formula: `=${agreement(`C${r}`, `D${r}`)}` });
  }
  const last = row + 1 + POINTS;
  b.name('CurveNonconforming', `A${row + 2}:A${last}`, 'Nonconforming units in the lot')
    .name('CurveProbability', `D${row + 2}:D${last}`, 'Probability that the lot is accepted')
    .name('CurveAgreement', `E${row + 2}:E${last}`, 'Whether function and plain formula agree on the curve');
  b.wide(`G${row + 2}:J${row + 2}`, {
    role: 'note',
    value: 'In Excel and in saved files a chart of this table stands here.',
  });
  // A text among the numbers along the axis would make Excel count 1, 2, 3 instead: only points this lot has.
  const end = row + 1 + Math.min(POINTS, lotSize + 1);
  b.chart({
    kind: 'curves',
    title: 'Probability that the lot is accepted',
    over: `G${row + 2}:J${last}`,
    across: 'nonconforming units in the lot',
    up: 'probability',
    top: 1,
    series: [
      {
        name: 'this plan, this lot',
        x: `A${row + 2}:A${end}`,
        y: `D${row + 2}:D${end}`,
        drawn: 'line',
      },
    ],
  });
  return last + 1;
}
