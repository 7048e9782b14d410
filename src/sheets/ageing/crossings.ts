import type { PlanBuilder } from '../builder';
import { agreement } from '../phrases/agree';

/** What the light is watched to fall to, in the order of the table the function gives. */
const LEVELS: readonly {
  readonly label: string;
  readonly target: string;
  /** Row of the function's table. */
  readonly tableRow: number;
  readonly call: string;
  /** A part of the first measurement, unless the light when new is stated: its own doubt counts as well. */
  readonly ofFirst: boolean;
}[] = [
  {
    label: 'Hours to 70 % of the initial',
    target: 'IF(COUNT(InitialOutput)=0,"",0.7*InitialOutput)',
    tableRow: 5,
    call: 'LIGHT.AGEINGHOURS(MeasuredHours,MeasuredOutput,0.7,StatedOutput)',
    ofFirst: true,
  },
  {
    label: 'Hours to 50 % of the initial',
    target: 'IF(COUNT(InitialOutput)=0,"",0.5*InitialOutput)',
    tableRow: 6,
    call: 'LIGHT.AGEINGHOURS(MeasuredHours,MeasuredOutput,0.5,StatedOutput)',
    ofFirst: true,
  },
  {
    label: 'Hours to what the room needs',
    target: 'IF(COUNT(NeededOutput)=0,"",NeededOutput)',
    tableRow: 7,
    call: 'LIGHT.AGEINGHOURSTO(MeasuredHours,MeasuredOutput,NeededOutput,StatedOutput)',
    ofFirst: false,
  },
];

/** The function's table; written out in each cell that takes one figure of it. */
export const TABLE =
  'LIGHT.AGEINGTABLE(MeasuredHours,MeasuredOutput,NeededOutput,StatedOutput,Level,"in doubt")';

const HEADS = [
  ['Until', 'in hours of the light source'],
  ['falls to', 'lm'],
  ['Hours', 'LIGHT'],
  ['Hours', 'plain'],
  ['the two', ''],
  ['Earliest', 'LIGHT'],
  ['Earliest', 'plain'],
  ['Latest', 'LIGHT'],
  ['Latest', 'plain'],
  ['the two', ''],
  ['How known', ''],
  ['Line crosses', 'h'],
  ['Log above', ''],
  ['Slope term', ''],
  ['Under root', ''],
  ['One end', 'h off it'],
  ['Other end', 'h off it'],
  ['Earlier end', 'h off it'],
  ['Seen from hour', ''],
  ['Its variance', '÷ scatter²'],
  ['At last hour', 'log above'],
] as const;
const COLUMNS = 'ABCDEFGHIJKLMNOPQRSTU';
/** What says on a sheet that a light output at this height over the level is at it or below. */
export const AT_IT = '<=0';

export const NO_FALL = 'no fall seen';
/** Reached by a light that falls, and by one that does not. */
export const WITHIN = 'within what was measured';
export const THROUGHOUT = 'at or below throughout';

/**
 * Hours to 70 %, 50 % and the need with their intervals (Fieller's theorem; the same as `procurement/ageing/crossing.ts`).
 * Returns the first row below, and the cells that the plan of the next measurement and the chart need: `at` of the line's
 * crossing, `above` of its height over the level at the last hour, `seen` and `ahead` whose sum is the earliest hour.
 */
export function putCrossings(
  b: PlanBuilder,
  row: number,
): { next: number; at: string; above: string; seen: string; ahead: string } {
  HEADS.forEach(([label, unit], i) => {
    b.put(`${COLUMNS[i]}${row}`, { role: 'head', value: label });
    b.put(`${COLUMNS[i]}${row + 1}`, { role: 'unit', value: unit });
  });
  b.height(row, 30);
  const [first, last] = [row + 2, row + 1 + LEVELS.length];
  LEVELS.forEach((level, i) => {
    b.height(first + i, 24);
    putLevel(b, first + i, level);
  });
  const names = [
    ['HoursTo', 'D', 'Hours until the light has fallen: to 70 %, to 50 %, to the need'],
    ['HoursToFrom', 'G', 'At the earliest, at the level of confidence'],
    ['HoursToUntil', 'I', 'At the latest, at the level of confidence'],
    ['Agreement', 'E', 'Whether functions and plain formulas agree on the hours'],
    ['IntervalAgreement', 'J', 'Whether functions and plain formulas agree on the interval'],
    ['HoursTrust', 'K', 'What is measured and what is projected'],
  ] as const;
  for (const [name, column, comment] of names) b.name(name, `${column}${first}:${column}${last}`, comment);
  const cells = (column: string) => `${column}$${first}:${column}$${last}`;
  return { next: last + 1, at: cells('L'), above: cells('U'), seen: cells('S'), ahead: cells('R') };
}

function putLevel(
  b: PlanBuilder,
  r: number,
  { label, target, tableRow, call, ofFirst }: (typeof LEVELS)[number],
): void {
  const guard = (value: string) =>
    `=IF(AgeingState<>"complete",AgeingState,IF(COUNT(B${r})=0,"no need stated",${value}))`;
  const quiet = (value: string) => `=IF(OR(AgeingState<>"complete",COUNT(B${r})=0),"",${value})`;
  const working = (value: string) => `=IF(COUNT(M${r})=0,"",${value})`;
  const hours = { role: 'derived', format: '#,##0' } as const;
  b.put(`A${r}`, { role: 'label', value: label });
  b.put(`B${r}`, { role: 'derived', format: '#,##0.0', formula: `=${target}` });
  b.put(`C${r}`, { role: 'called', format: '#,##0', formula: guard(call) });
  b.put(`D${r}`, {
    role: 'twin',
    format: '#,##0',
    formula: guard(
      `IF(COUNT(L${r})=0,IF(U${r}${AT_IT},0,"${NO_FALL}"),IF(L${r}>CapHours,"more than "&INT(CapHours),MAX(0,L${r})))`,
    ),
  });
  b.put(`E${r}`, { role: 'check', formula: `=${agreement(`C${r}`, `D${r}`)}` });
  b.put(`F${r}`, { role: 'called', format: '#,##0', formula: quiet(`INDEX(${TABLE},${tableRow},3)`) });
  // The band need not reach the level at all; a crossing before 0 h or beyond the cap is cut there.
  const lower = `MIN(P${r},Q${r})`;
  const ahead = `IF(${lower}>0,${lower},IF(MAX(P${r},Q${r})>0,MAX(P${r},Q${r}),""))`;
  const clear = `AND(M${r}>0,M${r}^2>(StudentK*Scatter)^2*T${r})`;
  const earliest = `IF(N${r}>0,${lower},IF(${clear},${ahead},""))`;
  // Without a fall the band may come down to the level all the same, unless it holds it at the last hour already.
  const last = `(LastHours-S${r})`;
  const isClear = `AND(O${r}>=0,U${r}>StudentK*Scatter*SQRT(T${r}+${last}^2/HoursSpread))`;
  const unseen = `IF(${isClear},IF(MAX(P${r},Q${r})>${last},MAX(P${r},Q${r}),CapHours-S${r}),"")`;
  b.put(`R${r}`, {
    ...hours,
    formula: working(`IF(COUNT(L${r})=0,${unseen},IF(COUNT(P${r},Q${r})<2,"",${earliest}))`),
  });
  b.put(`G${r}`, {
    role: 'twin',
    format: '#,##0',
    formula: quiet(`IF(COUNT(L${r},R${r})<2,"",MIN(MAX(0,S${r}+R${r}),CapHours))`),
  });
  b.put(`H${r}`, { role: 'called', format: '#,##0', formula: quiet(`INDEX(${TABLE},${tableRow},4)`) });
  b.put(`I${r}`, {
    role: 'twin',
    format: '#,##0',
    formula: quiet(
      `IF(COUNT(L${r},R${r})<2,"",IF(N${r}<=0,"open",IF(S${r}+MAX(P${r},Q${r})>CapHours,"open",MAX(0,S${r}+MAX(P${r},Q${r})))))`,
    ),
  });
  const two = (custom: string, twin: string) => agreement(`${custom}${r}`, `${twin}${r}`);
  b.put(`J${r}`, {
    role: 'check',
    formula: `=IF(OR(${two('F', 'G')}="differ",${two('H', 'I')}="differ"),"differ",${two('F', 'G')})`,
  });
  // Where no earlier end is known the sum is at most the last hour.
  const perhaps = `IF(SUM(R${r},S${r})<=LastHours,", perhaps below already","")`;
  const still = `IF(COUNT(L${r})=0,"${NO_FALL}",IF(L${r}>CapHours,"beyond the cap","projected"))&${perhaps}`;
  const already = `IF(COUNT(L${r})=0,"${THROUGHOUT}","${WITHIN}")`;
  b.put(`K${r}`, { role: 'check', formula: quiet(`IF(U${r}${AT_IT},${already},${still})`) });
  b.put(`L${r}`, { ...hours, formula: quiet(`IF(LogSlope>=0,"",S${r}-M${r}/LogSlope)`) });
  b.put(`M${r}`, {
    role: 'derived',
    format: '0.00000',
    formula: quiet(`MeanLog+LogSlope*(S${r}-MeanHours)-LN(B${r}/MAX(MeasuredOutput))`),
  });
  b.put(`N${r}`, {
    role: 'derived',
    format: '0.0E+00',
    formula: working('LogSlope^2-(StudentK*Scatter)^2/HoursSpread'),
  });
  b.put(`O${r}`, {
    role: 'derived',
    format: '0.0E+00',
    formula: working(`(StudentK*Scatter)^2*(N${r}*T${r}+M${r}^2/HoursSpread)`),
  });
  const q = `(0-(M${r}*LogSlope+IF(M${r}*LogSlope<0,0-1,1)*SQRT(O${r})))`;
  b.put(`P${r}`, { ...hours, formula: working(`IF(O${r}<0,"",IF(N${r}=0,"",${q}/N${r}))`) });
  b.put(`Q${r}`, {
    ...hours,
    formula: working(`IF(O${r}<0,"",IF(${q}=0,0,(M${r}^2-(StudentK*Scatter)^2*T${r})/${q}))`),
  });
  const own = ofFirst ? 'COUNT(StatedOutput)=0' : '';
  const seen = (first: string, mean: string) => quiet(own ? `IF(${own},${first},${mean})` : mean);
  b.put(`S${r}`, { ...hours, formula: seen('FirstHours', 'MeanHours') });
  b.put(`T${r}`, {
    role: 'derived',
    format: '0.000',
    formula: seen(
      'MAX(0,1/COUNT(FirstOutputs)-1/PointCount-(FirstHours-MeanHours)^2/HoursSpread)',
      '1/PointCount',
    ),
  });
  b.put(`U${r}`, {
    role: 'derived',
    format: '0.00000',
    // Rounded, so that what is at the level is at it (as `procurement/ageing/hours.ts`; a small number itself would be
    // written 1E-12, which the embedded engine takes for a text).
    formula: quiet(`ROUND(M${r}+LogSlope*(LastHours-S${r}),12)`),
  });
}
