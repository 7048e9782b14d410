import { bad, chain, explain, good, invalid, missing } from '../photometry/outcome';
import { need } from '../procurement/need/need';
import { contrastReached } from '../procurement/need/reached';
import { taskContrast, VIEWING_TASKS } from '../procurement/need/tasks';
import { whatIf } from '../procurement/need/whatif';
import { area } from './light';
import { known } from './lists';
import { choice, column, number } from './params';
import { define } from './record';

/** More would hold the page while they are worked out; nobody reads a table so large. */
const TABLE_CELLS = 5000;

/** 0 lx is how an empty cell arrives, and an ambient light taken for none would ask for too little. */
const ambient = () =>
  number('illuminance of the room’s own light on the screen, projector dark', 'lx', { moreThan: 0 });
const part = (description: string) => number(description, 'part of 1', { moreThan: 0, max: 1 }, 1);

/** What is wanted on the screen and kept in reserve, in this order wherever a need is worked out. */
const wishes = () => ({
  contrast: known('wanted contrast, to 1', ''),
  luminance: known('wanted luminance of white', 'cd/m²'),
  ownContrast: known('the projector’s own contrast in the dark, to 1', ''),
  gain: number('screen gain', '', { moreThan: 0 }, 1),
  ageingReserve: part('what is left of the light at the end of the planned use'),
  modeReserve: part('what the daily mode gives of the rated mode'),
});

/** Arguments are named for messages, the domain's own fields for the formula. */
function reserved<T extends { readonly ageingReserve: number; readonly modeReserve: number }>(args: T) {
  const { ageingReserve, modeReserve, ...rest } = args;
  return { ...rest, ageing: ageingReserve, mode: modeReserve };
}

const FORMULA =
  'Φ = area × max((C − 1)·E_a ÷ (1 − C ÷ C₀), π·L ÷ gain) ÷ (ageing × mode); no solution for C ≥ C₀';
const SOURCE =
  'contrast with ambient light and L = E·G/π (CIE e-ILV 17-24-063, 17-24-077) solved for E; reserves: common practice';

export const needFunctions = [
  define({
    id: 'TASKCONTRAST',
    summary: 'Contrast that a viewing task asks for, with the room’s light on the screen.',
    params: { task: choice('viewing task', 'VIEWINGTASK', VIEWING_TASKS) },
    result: { kind: 'number', unit: 'to 1' },
    formula: 'table of four tasks',
    source: '15 and 50: AVIXA; 7 and 80: ANSI/INFOCOMM 3M-2011 (from memory)',
    example: '=LIGHT.TASKCONTRAST("basic decision making")',
    compute: ({ task }) => good(taskContrast(task).contrast),
  }),
  define({
    id: 'NEED',
    summary:
      'White light output to ask for so that an aged unit still gives the wanted contrast and luminance.',
    params: { area: area(), ambient: ambient(), ...wishes() },
    result: { kind: 'number', unit: 'lm' },
    formula: FORMULA,
    source: SOURCE,
    example: '=LIGHT.NEED(2,50,15,,400,1,0.7,0.8)',
    compute: (args) => chain(need(reserved(args)), ({ white }) => good(white)),
  }),
  define({
    id: 'NEEDTABLE',
    summary:
      'The need as a table: white and colour light output to ask for, which wish governs, and what the screen shows at the end and when new.',
    params: {
      area: area(),
      ambient: ambient(),
      ...wishes(),
      colourPart: part('colour light output asked for as a part of white'),
    },
    result: { kind: 'table', unit: 'as said in each row' },
    formula: FORMULA,
    source: SOURCE,
    example: '=LIGHT.NEEDTABLE(2,50,15,80,400,1,0.7,0.8)',
    compute: (args) =>
      chain(need(reserved(args)), ({ white, colour, governs, forContrast, forLuminance, atEnd, whenNew }) =>
        good([
          ['white light output to ask for', white, 'lm'],
          ['colour light output to ask for', colour, 'lm'],
          ['governed by', governs, ''],
          ['illuminance for the contrast', forContrast ?? 'not asked for', 'lx'],
          ['illuminance for the luminance', forLuminance ?? 'not asked for', 'lx'],
          ['luminance at the end', atEnd.luminance, 'cd/m²'],
          ['contrast at the end', atEnd.contrast ?? 'not defined', 'to 1'],
          ['luminance when new', whenNew.luminance, 'cd/m²'],
          ['contrast when new', whenNew.contrast ?? 'not defined', 'to 1'],
        ]),
      ),
  }),
  define({
    id: 'WHATIF',
    summary:
      'White light output to ask for in other light (one row each) and on other images (one column each).',
    params: {
      ambient: column('ambient illuminances on the screen, lx', 'number'),
      area: column('image areas, m²', 'number'),
      ...wishes(),
    },
    result: { kind: 'table', unit: 'lm' },
    formula: FORMULA,
    source: SOURCE,
    example: '=LIGHT.WHATIF(A2:A5,B1:D1,15)',
    compute: ({ ambient: ambients, area: areas, ...wanted }) => {
      const asked = ambients.length * areas.length;
      if (asked > TABLE_CELLS) {
        const message = `The table would have ${ambients.length} × ${areas.length} results; at most ${TABLE_CELLS} are worked out at once.`;
        return bad(invalid('too-large', 'ambient and area', message));
      }
      const dark = ambients.indexOf(0);
      if (dark >= 0) {
        const where = `ambient illuminance in row ${dark + 1}`;
        return bad(missing(where, `The ${where} is missing: the cell is empty or 0.`));
      }
      const cells = whatIf({ ...reserved(wanted), ambient: 0, area: 1 }, ambients, areas);
      return good([
        ['lx \\ m²', ...areas],
        ...cells.map((row, r) => [
          ambients[r]!,
          ...row.map((cell) => (cell.ok ? cell.value : explain(cell.problems))),
        ]),
      ]);
    },
  }),
  define({
    id: 'CONTRASTREACHED',
    summary: 'Contrast on the screen that a light output reaches in the room’s own light.',
    params: {
      lightOutput: number('light output', 'lm', { moreThan: 0 }),
      area: area(),
      ambient: ambient(),
      ownContrast: known('the projector’s own contrast in the dark, to 1', ''),
    },
    result: { kind: 'number', unit: 'to 1' },
    formula: 'C = (E + E_a) ÷ (E ÷ C₀ + E_a), E = light output ÷ area',
    source: 'illuminances add; contrast as white ÷ black',
    example: '=LIGHT.CONTRASTREACHED(2500,2,50,400)',
    compute: (a) => contrastReached(a.lightOutput, a.area, a.ambient, a.ownContrast),
  }),
];
