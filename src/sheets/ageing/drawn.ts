import type { PlanBuilder } from '../builder';

/** Points that each drawn line is made of. */
const POINTS = 9;

/**
 * The chart of the measurements, the fit, what is projected from it and the level watched; and the points its
 * lines are drawn through, below everything else. Returns the first row below them.
 *
 * @param over the cells the chart covers
 * @param at the cells where the crossings stand, for how far the picture goes
 */
export function putDrawn(
  b: PlanBuilder,
  row: number,
  over: string,
  at: string,
  measured: { readonly hours: string; readonly output: string },
): number {
  b.wide(`A${row}:J${row}`, {
    role: 'heading',
    value: 'Points that the lines of the chart are drawn through',
  });
  const heads = ['fit', 'h', 'lm', 'projected', 'h', 'lm', 'level', 'h', 'lm'];
  heads.forEach((value, i) => {
    b.put(`${'ABCDEFGHI'[i]}${row + 1}`, { role: 'unit', value });
  });
  const [first, last] = [row + 2, row + 1 + POINTS];
  const which = 'IF(COUNT(NeededOutput)=1,3,1)';
  // A text here would make Excel count points instead of hours, so what is not known yet is 0 and not shown.
  const known = (value: string) => `=IF(AgeingState<>"complete",0,${value})`;
  const fitted = (cell: string) => `MAX(MeasuredOutput)*EXP(MeanLog+LogSlope*(${cell}-MeanHours))`;
  for (let k = 0; k < POINTS; k++) {
    const r = first + k;
    const part = `${k}/${POINTS - 1}`;
    b.put(`A${r}`, { role: 'unit', value: k + 1 });
    const hours = { role: 'derived', format: '#,##0' } as const;
    const lumens = { role: 'derived', format: '#,##0.0;;' } as const;
    b.put(`B${r}`, { ...hours, formula: known(`FirstHours+${part}*(LastHours-FirstHours)`) });
    b.put(`C${r}`, { ...lumens, formula: known(fitted(`B${r}`)) });
    b.put(`E${r}`, { ...hours, formula: known(`LastHours+${part}*(DrawnTo-LastHours)`) });
    b.put(`F${r}`, { ...lumens, formula: known(fitted(`E${r}`)) });
    b.put(`H${r}`, { ...hours, formula: known(`${part}*DrawnTo`) });
    b.put(`I${r}`, { ...lumens, formula: known('IF(COUNT(NeededOutput)=1,NeededOutput,0.7*InitialOutput)') });
  }
  b.put(`A${last + 1}`, { role: 'label', value: 'Drawn as far as, h' });
  const crossing = `INDEX(${at},${which})`;
  // The crossing is what the picture is for; nothing is drawn beyond what may be projected.
  b.put(`B${last + 1}`, {
    role: 'derived',
    format: '#,##0',
    formula: known(`MIN(CapHours,MAX(1.2*LastHours,IF(COUNT(${crossing})=0,0,1.08*${crossing})))`),
  });
  b.name('DrawnTo', `B${last + 1}`, 'Hours as far as the chart is drawn');
  b.name('DrawnFit', `B${first}:C${last}`, 'Chart: the fit over what was measured')
    .name('DrawnProjection', `E${first}:F${last}`, 'Chart: the fit beyond the last measurement')
    .name('DrawnLevel', `H${first}:I${last}`, 'Chart: the light the room needs, or 70 % of the initial');
  b.chart({
    kind: 'curves',
    title: 'Light output over the hours of the source',
    over,
    across: 'hours of the light source',
    up: 'light output, lm',
    series: [
      { name: 'measured', x: measured.hours, y: measured.output, drawn: 'points' },
      { name: 'fit', x: `B${first}:B${last}`, y: `C${first}:C${last}`, drawn: 'line' },
      { name: 'projected', x: `E${first}:E${last}`, y: `F${first}:F${last}`, drawn: 'dashes' },
      {
        name: 'need, or 70 % of the initial',
        x: `H${first}:H${last}`,
        y: `I${first}:I${last}`,
        drawn: 'line',
      },
    ],
  });
  return last + 2;
}
