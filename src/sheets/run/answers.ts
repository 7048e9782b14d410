import type { PlanBuilder } from '../builder';
import { joined } from '../joined';
import { reportedText } from '../reported';
import type { RunSetup } from '../runsetup';
import { RED } from '../style';
import { gridsOf, readingsOf } from './grids';
import { FORMAT } from './layout';
import { above0, anyNumber } from './readings';

/** Rows that stay on the screen: title, what was measured, and the answers. */
export const FROZEN_ROWS = 6;

const BAD = ['fail', 'conditional fail', 'see'] as const;

/**
 * What the sheet is about, in its first rows: the results that decide, as they are reported, how far the readings are,
 * and what makes most of the doubt. All from plain formulas, so that they are there without the add-in.
 */
export function putAnswers(b: PlanBuilder, setup: RunSetup): number {
  b.wide('A2:P2', { role: 'check', formula: `=${ABOUT}` });
  putOutput(b, 3, 'White');
  if (setup.colour === 'none') b.put('A4', { role: 'label', value: 'Colour was not measured' });
  else putOutput(b, 4, 'Colour');
  putScreen(b, 5, setup);
  b.put('A6', { role: 'label', value: 'Readings' });
  b.wide('B6:C6', { role: 'answer', formula: `=${progress(setup)}` });
  b.wide('D6:P6', { role: 'check', formula: `=${MOST_DOUBT}` });
  for (let row = 3; row <= FROZEN_ROWS; row++) b.height(row, 21);
  for (const begins of BAD) b.alert({ range: 'B3:H5', begins, ...RED });
  return FROZEN_ROWS + 1;
}

/** What of the set-up the readings rest on, in a line above them. */
export function putConditions(b: PlanBuilder, row: number): number {
  b.wide(`A${row}:P${row}`, { role: 'check', formula: `=${CONDITIONS}` });
  return row + 1;
}

const named = (name: string, words: string) => `IF(COUNTA(${name})=0,"${words}",${name})`;
const ABOUT = `${named('Projector', 'Projector not named')}&IF(COUNTA(SerialNumber)=0,"",", serial number "&SerialNumber)&IF(COUNTA(PictureMode)=0,"",", mode "&PictureMode)`;

const AREA = `IF(COUNT(ImageArea)=0,"no area: see the set-up",${joined('FIXED(ImageArea,3,TRUE)')}&" m²")`;
/** ROW tells a reader where the set-up stands, wherever rows are put in. */
const CONDITIONS = `"Image "&${joined('FIXED(ImageWidth,3,TRUE)')}&" m × "&${joined('FIXED(ImageHeight,3,TRUE)')}&" m, "&${AREA}&". Meter: "&${named('Meter', 'not stated')}&", display in "&MeterUnit&". The set-up stands from row "&ROW(Projector)&" on."`;

function putOutput(b: PlanBuilder, row: number, id: 'White' | 'Colour'): void {
  put(b, row, `${id} light output`, `${id}LightOutputPlain`, `${id}ExpandedPlain`, { unit: 'lm' });
  b.wide(`F${row}:H${row}`, { role: 'answer', formula: `=${id}VerdictPlain` });
  const limit = `"at least "&${joined(`ROUND(${id}LimitPlain,1)`)}&" lm"`;
  b.wide(`J${row}:P${row}`, { role: 'check', formula: `=IF(COUNT(${id}LimitPlain)=0,"",${limit})` });
}

/** Uniformity, and the contrast where black was read. */
function putScreen(b: PlanBuilder, row: number, { black }: RunSetup): void {
  const label = 'Uniformity, min ÷ max of nine';
  put(b, row, label, 'UniformityMinMaxPlain', 'UniformityExpandedPlain', { unit: '%', times: 100 });
  if (!black) return;
  b.wide(`F${row}:I${row}`, { role: 'label', value: 'Sequential contrast, net' });
  b.wide(`J${row}:P${row}`, {
    role: 'answer',
    formula: '=SequentialContrastPlain',
    format: FORMAT.contrast,
  });
}

/** "(3130 ± 120) lm": rounded as U is reported (GUM 7.2.6), the words of the result until there is one. */
function put(
  b: PlanBuilder,
  row: number,
  label: string,
  value: string,
  u: string,
  { unit, times = 1 }: { unit: string; times?: number },
): void {
  const shown = (cell: string) => (times === 1 ? cell : `${times}*${cell}`);
  const rounded = (cell: string) => reportedText(shown(cell), shown(u));
  b.put(`A${row}`, { role: 'label', value: label });
  b.wide(`B${row}:E${row}`, {
    role: 'answer',
    formula: `=IF(COUNT(${value},${u})<2,${value},IF(${u}<=0,${value},"("&${rounded(value)}&" ± "&${rounded(u)}&") ${unit}"))`,
  });
}

/** "38 of 38", over all grids of a set-up. */
function progress(setup: RunSetup): string {
  const counted = gridsOf(setup).map(({ name, mayBeZero }) => (mayBeZero ? anyNumber : above0)(name));
  return `(${counted.join('+')})&" of ${readingsOf(setup)}"`;
}

const MOST_DOUBT =
  'IF(COUNT(WhiteExpandedPlain)=0,"",INDEX(WhiteComponents,MATCH(MAX(WhiteShares),WhiteShares,0))&" makes "&INT(100*MAX(WhiteShares)+0.5)&" % of the doubt of white: type what you know of it from row "&ROW(MeterClass)&" on.")';
