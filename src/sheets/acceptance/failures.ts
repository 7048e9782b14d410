import type { PlanBuilder } from '../builder';

/** Failures shown in a list of their own; further ones stand in the lines of the units. */
const FAILURES = 10;

/** Head, name of the unit lines' column, and format. The columns are those of the unit lines below. */
const COLUMNS: readonly (readonly [cells: string, head: string, name: string, format?: string])[] = [
  ['A', 'Serial', 'Serials'],
  ['B', 'Drawn as', 'DrawPlaces', '0'],
  ['C', 'White', 'UnitWhite', '#,##0.0'],
  ['D', 'U of white', 'UnitWhiteU', '#,##0.0'],
  ['E', 'Colour', 'UnitColour', '#,##0.0'],
  ['F', 'U of colour', 'UnitColourU', '#,##0.0'],
  ['G', 'Remarks', 'UnitRemark'],
  ['H', 'Figures from', 'UnitSource'],
  ['I', 'Decision, white', 'WhiteDecision'],
  ['J', 'Decision, colour', 'ColourDecision'],
  ['K:L', 'Why', 'UnitWhy'],
];

/** The units of the sample that do not conform, with their figures and the reason. Returns the first row below. */
export function putFailures(b: PlanBuilder, row: number): number {
  b.wide(`A${row}:L${row}`, {
    role: 'heading',
    value: 'Units of the sample that do not conform (this list follows the lines below)',
  });
  const at = (cells: string, r: number) => cells.replace(/[A-Z]/g, (column) => `${column}${r}`);
  for (const [cells, head] of COLUMNS) b.wide(at(cells, row + 1), { role: 'unit', value: head });
  for (let k = 1; k <= FAILURES; k++) {
    const r = row + 1 + k;
    for (const [cells, , name, format] of COLUMNS) {
      const found = `INDEX(${name},MATCH(${k},FailNumber,0))`;
      // A figure that is not there must not read as 0.
      const shown = format ? `IF(COUNT(${found})=0,"",${found})` : `${found}&""`;
      b.wide(at(cells, r), {
        role: format ? 'derived' : 'check',
        formula: `=IF(${k}>MAX(FailNumber),"",${shown})`,
        ...(format ? { format } : {}),
      });
    }
  }
  const [first, last] = [row + 2, row + 1 + FAILURES];
  b.name('Failures', `A${first}:A${last}`, 'Serials of the sample that do not conform').name(
    'FailureReasons',
    `K${first}:K${last}`,
    'Why they do not conform',
  );
  b.wide(`A${last + 1}:L${last + 1}`, {
    role: 'check',
    formula: `=IF(MAX(FailNumber)=0,"None so far.",IF(MAX(FailNumber)>${FAILURES},MAX(FailNumber)-${FAILURES}&" more in the lines below.",""))`,
  });
  b.name('FailuresLeft', `A${last + 1}`, 'How many failures the list leaves out');
  return last + 2;
}
