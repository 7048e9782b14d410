import { inspectionWords } from '../../procurement/lot/plan';
import type { PlanBuilder } from '../builder';
import { agreement } from '../phrases/agree';
import { linesOf } from '../rows';
import type { DrawnLot } from './setup';

const PLAN: readonly [label: string, name: string, custom: string, plain: string][] = [
  [
    'Code letter',
    'CodeLetter',
    'LIGHT.CODELETTER(LotSize,InspectionLevel)',
    'INDEX(LotLetters,MATCH(LotSize,LotsFrom,1))',
  ],
  [
    'Units to measure',
    'SampleSize',
    'LIGHT.SAMPLESIZE(LotSize,Aql,InspectionLevel,Severity)',
    `MIN(LotSize,${lookedUp('PlanSizes')})`,
  ],
  [
    'Acceptance number Ac',
    'AcceptNumber',
    'LIGHT.ACCEPTNUMBER(LotSize,Aql,InspectionLevel,Severity)',
    lookedUp('PlanAccepts'),
  ],
  [
    'Rejection number Re',
    'RejectNumber',
    'LIGHT.REJECTNUMBER(LotSize,Aql,InspectionLevel,Severity)',
    lookedUp('PlanRejects'),
  ],
];

/** What a table of plans says of the lot and its AQL. */
function lookedUp(table: string): string {
  return `INDEX(${table},MATCH(Aql,AqlRows,0),MATCH(LotSize,LotsFrom,1))`;
}

/** Plan, counts and verdict, each twice; then what the plan protects against. Returns the first row below. */
export function putVerdict(b: PlanBuilder, row: number, setup: DrawnLot): number {
  b.wide(`A${row}:J${row}`, { role: 'heading', value: 'Plan and verdict' });
  ['', 'LIGHT', 'plain', 'the two'].forEach((value, i) => {
    b.put(`${'ABCD'[i]}${row + 1}`, { role: 'unit', ...(value ? { value } : {}) });
  });
  let r = row + 2;
  const single = (label: string, name: string, formula: string) => {
    b.put(`A${r}`, { role: 'label', value: label });
    b.put(`B${r}`, { role: 'derived' }).put(`D${r}`, { role: 'check' });
    b.put(`C${r}`, { role: 'twin', formula: `=${formula}` });
    b.name(name, `C${r}`, label);
    r++;
  };
  single('Units of the lot', 'LotSize', 'COUNTA(Serials)');
  const known = (value: string) =>
    `=IF(LotSize<2,"at least two units",IF(COUNT(Aql)=0,"AQL missing",IF(ISNA(MATCH(Aql,AqlRows,0)),"no such AQL",${value})))`;
  const first = r;
  for (const [label, name, custom, plain] of PLAN) {
    b.put(`A${r}`, { role: 'label', value: label });
    b.put(`B${r}`, { role: 'called', formula: known(custom), format: '0' });
    b.put(`C${r}`, { role: 'twin', formula: known(plain), format: '0' });
    b.put(`D${r}`, { role: 'check', formula: `=${same(`B${r}`, `C${r}`)}` });
    b.name(name, `C${r}`, label);
    r++;
  }
  single('Units measured and decided', 'Inspected', `${counted('conforms')}+${counted('does not conform')}`);
  single('Of them not conforming', 'Nonconforming', counted('does not conform'));
  single(
    'State of the draw',
    'DrawState',
    'IF(COUNT(SampleSize)=0,SampleSize,IF(COUNT(DrawPlaces)<>SampleSize,"the draw does not fit the plan","complete"))',
  );
  b.put(`A${r}`, { role: 'label', value: 'Verdict on the lot' });
  b.put(`B${r}`, {
    role: 'called',
    formula: guard(
      'LIGHT.LOTVERDICT(SampleSize,RejectNumber-1,Inspected,Nonconforming,Inspected-Nonconforming)',
    ),
  });
  b.put(`C${r}`, {
    role: 'twin',
    formula: guard(
      'IF(Nonconforming>=RejectNumber,"rejected",IF(Inspected=SampleSize,"accepted","not finished"))',
    ),
  });
  b.put(`D${r}`, { role: 'check', formula: `=${same(`B${r}`, `C${r}`)}` });
  b.name('LotVerdict', `C${r}`, 'Verdict on the lot').name(
    'Agreement',
    `D${first}:D${r}`,
    'Whether functions and plain formulas agree on plan and verdict',
  );
  r++;
  b.put(`A${r}`, { role: 'label', value: 'The draw, repeated' });
  const again = 'LIGHT.DRAWSAMPLE(Serials,SampleSize,Seed)';
  const found = (name: string, column: number) =>
    `SUMPRODUCT(ISNUMBER(MATCH(${name},INDEX(${again},0,${column}),0))*1)`;
  b.put(`B${r}`, { role: 'result' });
  b.put(`C${r}`, {
    role: 'result',
    // Without the add-in there is no draw to compare with: that is no difference.
    formula: guard(
      `IF(ISERROR(INDEX(${again},2,3)),"needs the functions",IF(${found('Tickets', 3)}=SampleSize,"the same","differs"))`,
    ),
  });
  b.wide(`D${r}:J${r}`, {
    role: 'check',
    value:
      'By function only: no spreadsheet has SHA-256 of its own. Any program that has it can repeat the draw.',
  });
  b.name('DrawRepeated', `C${r}`, 'Whether the recorded draw comes out again from list and seed');
  return putWords(b, r + 1, setup);
}

/** Until the draw fits the plan there is only to say that it does not. */
export const guard = (value: string) => `=IF(DrawState<>"complete",DrawState,${value})`;

/** Units of the draw with a decision. */
function counted(decision: string): string {
  return `COUNTIF(UnitDecision,"${decision}")`;
}

/** Texts that agree are worth saying here: a letter, a verdict. */
const same = (custom: string, twin: string) => agreement(custom, twin, { results: 'all' });

/** Characters that fit beside each other in the merged cells of a paragraph. */
const WORDS_WIDTH = 150;

/** What the plan protects against, and for which plan that is said. */
function putWords(b: PlanBuilder, row: number, { plan, words }: DrawnLot): number {
  b.wide(`A${row}:J${row}`, {
    role: 'heading',
    value: `What this plan protects, and what it does not (${plan.lotSize} units, AQL ${plan.aql}, ${plan.sampleSize} measured, accepted with at most ${plan.reject - 1}; ${inspectionWords(plan)})`,
  });
  words.forEach((value, i) => {
    b.wide(`A${row + 1 + i}:J${row + 1 + i}`, { role: 'note', value }).height(
      row + 1 + i,
      15 * linesOf(value, WORDS_WIDTH) + 1,
    );
  });
  const r = row + 1 + words.length;
  b.wide(`A${r}:J${r}`, {
    role: 'check',
    formula: `=IF(AND(LotSize=${plan.lotSize},Aql=${plan.aql}),"","These words are for another plan: build the sheet again for this list and AQL.")`,
  });
  b.name('WordsFit', `A${r}`, 'Whether the words above are about this plan');
  return r + 1;
}
