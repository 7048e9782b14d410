import { FEWEST_POINTS } from '../../procurement/ageing/points';
import type { PlanBuilder } from '../builder';
import { agreement } from '../phrases/agree';
import { TABLE } from './crossings';

/** The fit's figures twice, and what it rests on. Returns the first row below. */
export function putFit(b: PlanBuilder, row: number): number {
  b.wide(`A${row}:J${row}`, { role: 'heading', value: 'The fit' });
  b.put(`A${row + 1}`, { role: 'label', value: 'State' });
  const more = (n: string) => `${n}&IF(${n}=1," more measurement needed"," more measurements needed")`;
  b.wide(`B${row + 1}:D${row + 1}`, {
    role: 'check',
    formula: `=IF(SUMPRODUCT((LEFT(MeasurementState,5)="check")*1)>0,"see the lines marked check",IF(COUNT(UsedHours)<${FEWEST_POINTS},${more(`(${FEWEST_POINTS}-COUNT(UsedHours))`)},IF(MAX(UsedHours)=MIN(UsedHours),"all at one hour",IF(COUNT(Level)=0,"level of confidence missing","complete"))))`,
  });
  b.name('AgeingState', `B${row + 1}`, 'Complete, or what is missing');
  const heads = ['', 'LIGHT', 'plain', 'the two'];
  heads.forEach((value, i) => {
    b.put(`${'ABCD'[i]}${row + 2}`, { role: 'unit', ...(value ? { value } : {}) });
  });
  const guard = (value: string) => `=IF(AgeingState<>"complete",AgeingState,${value})`;
  const twice: readonly [string, string, string, string, string][] = [
    [
      'Rate of fall, per h',
      'FallRate',
      'LIGHT.AGEINGRATE(MeasuredHours,MeasuredOutput)',
      '0-LogSlope',
      '0.000E+00',
    ],
    [
      'Initial light by the fit, lm',
      'StartOutput',
      `INDEX(${TABLE},2,2)`,
      'MAX(MeasuredOutput)*EXP(MeanLog-LogSlope*MeanHours)',
      '#,##0.0',
    ],
    [
      'Initial light that counts, lm',
      'InitialOutput',
      `INDEX(${TABLE},4,2)`,
      'IF(COUNT(StatedOutput)=1,StatedOutput,AVERAGE(FirstOutputs))',
      '#,##0.0',
    ],
    [
      'Projected no further than, h',
      'CapHours',
      `INDEX(${TABLE},IF(COUNT(NeededOutput)=1,8,7),2)`,
      'InitialHours+6*(LastHours-InitialHours)',
      '#,##0',
    ],
  ];
  twice.forEach(([label, name, custom, plain, format], i) => {
    const r = row + 3 + i;
    b.put(`A${r}`, { role: 'label', value: label });
    b.put(`B${r}`, { role: 'called', format, formula: guard(custom) });
    b.put(`C${r}`, { role: 'twin', format, formula: guard(plain) });
    b.put(`D${r}`, { role: 'check', formula: `=${agreement(`B${r}`, `C${r}`)}` });
    b.name(name, `C${r}`, label);
  });
  const [first, last] = [row + 3, row + 2 + twice.length];
  b.name('FitAgreement', `D${first}:D${last}`, 'Whether functions and plain formulas agree on the fit');
  const bottom = putWorking(b, row + 1);
  return Math.max(last + 1, bottom);
}

/** What the plain formulas build on, beside the figures. */
function putWorking(b: PlanBuilder, row: number): number {
  const quiet = (value: string) => `=IF(AgeingState<>"complete","",${value})`;
  const lines: readonly [string, string, string, string][] = [
    ['Measurements used', 'PointCount', '=COUNT(UsedHours)', '0'],
    ['First hours', 'FirstHours', quiet('MIN(UsedHours)'), '#,##0'],
    ['Last hours', 'LastHours', quiet('MAX(UsedHours)'), '#,##0'],
    ['Hours of the initial light', 'InitialHours', quiet('IF(COUNT(StatedOutput)=1,0,FirstHours)'), '#,##0'],
    ['Mean of the hours', 'MeanHours', quiet('AVERAGE(UsedHours)'), '#,##0.0'],
    ['Mean of the logarithms', 'MeanLog', quiet('AVERAGE(LogOutput)'), '0.000000'],
    ['Spread of the hours', 'HoursSpread', quiet('SUM(HoursSquared)'), '#,##0'],
    ['Slope of the logarithm, per h', 'LogSlope', quiet('SUM(HoursTimesLog)/HoursSpread'), '0.000E+00'],
    ['Scatter about the line', 'Scatter', quiet('SQRT(SUM(RestSquared)/(PointCount-2))'), '0.00 %'],
    ['Student’s factor', 'StudentK', quiet('TINV(1-Level,PointCount-2)'), '0.000'],
  ];
  lines.forEach(([label, name, formula, format], i) => {
    const r = row + i;
    b.wide(`F${r}:H${r}`, { role: 'label', value: label });
    b.put(`I${r}`, { role: 'derived', formula, format });
    b.name(name, `I${r}`, label);
  });
  return row + lines.length;
}
