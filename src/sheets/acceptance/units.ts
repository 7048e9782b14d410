import { LUMENS } from '../../photometry/bounds';
import { SERIAL_MAX } from '../../procurement/lot/serials';
import { joined } from '../joined';
import type { CellName } from '../names/all';
import { decidedByValue, decidedInFour } from '../phrases/decision';
import type { Column } from '../rows';

/** A unit of the lot; place and ticket only where it was drawn, links where its figures are linked at once. */
export interface ListedUnit {
  readonly serial: string;
  readonly place?: number;
  readonly ticket?: string;
}

type At = (key: string) => string;

/** ILAC-G8:09/2019, 4.2.3 (four outcomes with w = U); by the value alone where no U is known. */
function verdict(value: string, expanded: string, least: string): string {
  return `IF(OR(COUNT(${least})=0,COUNT(${value})=0),"",IF(COUNT(${expanded})=0,${decidedByValue(value, least)},${decidedInFour(value, least, expanded)}))`;
}

/** Whether a verdict counts as conforming, by the counting fixed before the readings. */
function conforms(cell: string): string {
  return `OR(${cell}="pass",AND(Counting<>"strict",${cell}="conditional pass"),AND(Counting="lenient",${cell}="conditional fail"))`;
}

/** Decided once every figure that is judged is there. */
function decision(at: At): string {
  const [white, colour] = [at('whiteVerdict'), at('colourVerdict')];
  const asked = 'COUNT(LeastWhite,LeastColour)';
  const decided = `((${white}<>"")+(${colour}<>""))`;
  const both = [white, colour].map((cell) => `OR(${cell}="",${conforms(cell)})`).join(',');
  return `IF(COUNTA(${at('serial')})=0,"",IF(COUNT(${at('place')})=0,"not drawn",IF(COUNTA(LeastWhite,LeastColour)<>${asked},"limit is no number",IF(${asked}=0,"nothing judged",IF(${decided}<${asked},"to be measured",IF(AND(${both}),"conforms","does not conform"))))))`;
}

/** By how much a judged figure falls short, in words; empty where it conforms. */
function shortage(value: string, verdict: string, least: string, what: string): string {
  const under = `"${what} "&${joined(`FIXED(100*(1-${value}/${least}),1,TRUE)`)}&" % short"`;
  return `IF(OR(${verdict}="",${conforms(verdict)}),"",IF(${value}<${least},${under},"${what} above the least by less than U"))`;
}

/** Why a unit does not conform, for somebody who sees only this line. */
function why(at: At): string {
  const white = shortage(at('white'), at('whiteVerdict'), 'LeastWhite', 'white');
  const colour = shortage(at('colour'), at('colourVerdict'), 'LeastColour', 'colour');
  const both = `AND(${at('whiteVerdict')}<>"",NOT(${conforms(at('whiteVerdict'))}),${at('colourVerdict')}<>"",NOT(${conforms(at('colourVerdict'))}))`;
  // White conforms and colour does not: light added to white alone shows as colour far below it (colour-signal white, IDMS).
  const ratio = `IF(OR(${white}<>"",COUNT(${at('white')},${at('colour')})<2),"",IF(${at('white')}<=0,"","; colour is "&ROUND(100*${at('colour')}/${at('white')},0)&" % of white"))`;
  return `IF(${at('decision')}<>"does not conform","",${white}&IF(${both},"; ","")&${colour}&${ratio})`;
}

const lumens = (key: string, label: string, name: CellName, why: string): Column<ListedUnit> => ({
  key,
  label,
  unit: 'lm',
  width: 13,
  role: 'input',
  format: '#,##0.0',
  rule: { type: 'number', min: 0, max: LUMENS.max },
  why,
  name,
});

/** One line a unit of the lot. */
export const UNIT_COLUMNS: readonly Column<ListedUnit>[] = [
  {
    key: 'serial',
    label: 'Serial',
    unit: '',
    width: 26,
    role: 'input',
    format: '@',
    value: ({ serial }) => serial,
    rule: { type: 'length', max: SERIAL_MAX },
    why: 'Every unit of the lot, once. Changed after the draw, the draw no longer fits.',
    name: 'Serials',
  },
  {
    key: 'place',
    label: 'Drawn as',
    unit: 'number',
    width: 11,
    role: 'derived',
    format: '0',
    value: ({ place }) => place,
    name: 'DrawPlaces',
  },
  lumens(
    'white',
    'White',
    'UnitWhite',
    'White light output as measured, or linked from the unit’s run sheet.',
  ),
  lumens('whiteU', 'U of white', 'UnitWhiteU', 'Expanded uncertainty. Empty: decided by the value alone.'),
  lumens('colour', 'Colour', 'UnitColour', 'Colour light output as measured, or linked from the run sheet.'),
  lumens('colourU', 'U of colour', 'UnitColourU', 'Expanded uncertainty. Empty: decided by the value alone.'),
  {
    key: 'remark',
    label: 'Remarks',
    unit: '',
    width: 22,
    role: 'input',
    format: '@',
    rule: { type: 'length', max: 200 },
    why: 'What a reader must know of this unit.',
    name: 'UnitRemark',
  },
  {
    key: 'source',
    label: 'Figures from',
    unit: '',
    width: 26,
    role: 'check',
    formula: (at) => `IF(COUNT(${at('white')},${at('colour')})=0,"","typed here")`,
    name: 'UnitSource',
  },
  {
    key: 'whiteVerdict',
    label: 'Decision, white',
    unit: '',
    width: 14,
    role: 'check',
    formula: (at) => verdict(at('white'), at('whiteU'), 'LeastWhite'),
    name: 'WhiteDecision',
  },
  {
    key: 'colourVerdict',
    label: 'Decision, colour',
    unit: '',
    width: 14,
    role: 'check',
    formula: (at) => verdict(at('colour'), at('colourU'), 'LeastColour'),
    name: 'ColourDecision',
  },
  {
    key: 'decision',
    label: 'Counts as',
    unit: '',
    width: 16,
    role: 'check',
    formula: decision,
    name: 'UnitDecision',
  },
  {
    key: 'why',
    label: 'Why',
    unit: '',
    width: 32,
    role: 'check',
    formula: why,
    name: 'UnitWhy',
  },
  {
    key: 'fail',
    label: 'Failure',
    unit: 'number',
    width: 8,
    role: 'derived',
    format: '0',
    formula: (at) => {
      const own = at('fail');
      const [column, row] = [own.replace(/\d/g, ''), Number(own.replace(/\D/g, ''))];
      // The cell above the first line holds the word "number": counted, it is none.
      return `IF(${at('decision')}="does not conform",N(MAX(${column}$1:${column}${row - 1}))+1,"")`;
    },
    name: 'FailNumber',
  },
  {
    key: 'ticket',
    label: 'Ticket of the draw',
    unit: 'SHA-256',
    width: 16,
    role: 'derived',
    format: '@',
    value: ({ ticket }) => ticket,
    name: 'Tickets',
  },
];
