import { columnName } from './address';
import { PlanBuilder } from './builder';
import {
  aboutFormula,
  countFormulas,
  figureFormula,
  figuresOf,
  GONE,
  type GoneSheet,
  kindWords,
  type ListedSheet,
  REMOVED,
  stateFormula,
  wordsFormula,
} from './overview/listed';
import type { Plan, PlanCell } from './plan';
import { RED } from './style';

/** Layout version of overview sheets. */
export const OVERVIEW_VERSION = 2;

export interface OverviewSetup {
  /** In the order of the tabs. */
  readonly sheets: readonly ListedSheet[];
  readonly gone: readonly GoneSheet[];
}

const HEADS = [
  ['Sheet', 26, 'SheetNames'],
  ['Kind', 12, 'Kinds'],
  ['About', 24, 'Abouts'],
  ['State', 16.5, 'States'],
  ['Done', 6, 'DoneCounts'],
  ['Of', 6, 'AllCounts'],
  ['Main result', 29.5, 'ResultLabels'],
  ['Value', 10, 'ResultValues'],
  ['± U', 8, 'ResultU'],
  ['Decision', 17, 'Decisions'],
  ['Seal', 9, 'Seals'],
  ['Mark of the sheet', 18, 'Marks'],
] as const;

const LETTERS = HEADS.map((_, i) => columnName(i));
const [LAST, STATE, DONE, ALL, DECISION, SEAL] = [
  LETTERS.at(-1)!,
  ...(['States', 'DoneCounts', 'AllCounts', 'Decisions', 'Seals'] as const).map(
    (name) => LETTERS[HEADS.findIndex((head) => head[2] === name)]!,
  ),
];

const NOTE =
  'State, results and decisions are linked to the sheets and follow them, renamed or not. Names of sheets, new ones and seals are brought up to date by the pane. ' +
  'A sheet that was deleted is not forgotten: it stays listed as gone. Whether a seal still holds is told by a check of the seal, not here.';

/** Every sheet of ours in the workbook: what it is about, how far it is, its main results. */
export function overviewPlan({ sheets, gone }: OverviewSetup, id: string): Plan {
  const b = new PlanBuilder();
  b.wide(`A1:${LAST}1`, { role: 'title', value: 'Overview of this workbook' }).height(1, 26);
  b.wide(`A2:${LAST}2`, { role: 'note', value: NOTE }).height(2, 32);
  putTotals(b, 4);
  const head = 6;
  HEADS.forEach(([value], i) => {
    b.put(`${LETTERS[i]}${head}`, { role: 'heading', value });
  });
  let row = head + 1;
  for (const listed of sheets) row = putSheet(b, row, listed);
  for (const one of gone) row = putGone(b, row, one);
  if (row === head + 1) {
    putRow(b, row, [{ role: 'label', value: 'No sheet of ours yet.' }]);
    row++;
  }
  HEADS.forEach(([label, , name], i) => {
    b.name(name, `${LETTERS[i]}${head + 1}:${LETTERS[i]}${row - 1}`, label);
  });
  const states = `${STATE}${head + 1}:${STATE}${row - 1}`;
  for (const begins of [REMOVED, GONE]) b.alert({ range: states, begins, ...RED });
  for (const begins of ['fail', 'rejected'])
    b.alert({
      range: `${DECISION}${head + 1}:${DECISION}${row - 1}`,
      begins,
      ...RED,
    });
  return b.build({
    kind: 'overview',
    version: OVERVIEW_VERSION,
    id,
    title: 'Overview',
    columns: Object.fromEntries(HEADS.map(([, width], i) => [LETTERS[i]!, width])),
    print: { orientation: 'landscape', titleColumns: 'A:A' },
    start: `A${head + 1}`,
    freeze: { rows: head, columns: 0 },
  });
}

/** How many sheets there are and how far they are, in one line. */
function putTotals(b: PlanBuilder, row: number): void {
  const count = (words: string) => `COUNTIF(States,"${words}")`;
  const formula = [
    `COUNTA(Marks)&IF(COUNTA(Marks)=1," sheet: "," sheets: ")`,
    `(${count('complete')}+${count('sealed*')})&" complete or sealed, "`,
    `${count('in progress*')}&" in progress, "`,
    `${count('empty')}&" empty"`,
    `IF(${count(REMOVED)}+${count(GONE)}=0,"",", "&(${count(REMOVED)}+${count(GONE)})&" gone")`,
  ].join('&');
  b.wide(`A${row}:${LAST}${row}`, { role: 'label', formula: `=${formula}` });
  b.name('Tally', `A${row}`, 'How many sheets there are and how far they are');
}

/** One line a main result; what is of the sheet stands in the first. Returns the row below. */
function putSheet(b: PlanBuilder, row: number, listed: ListedSheet): number {
  const figures = figuresOf(listed);
  const about = aboutFormula(listed);
  const counts = countFormulas(listed);
  const rows = Math.max(1, figures.length);
  const isComplete = `${DONE}${row}>=${ALL}${row}`;
  for (let i = 0; i < rows; i++) {
    const [r, figure] = [row + i, figures[i]];
    const first: (PlanCell | undefined)[] =
      i === 0
        ? [
            { role: 'label', value: listed.sheet, format: '@' },
            { role: 'unit', value: kindWords(listed) },
            about ? { role: 'check', formula: about } : undefined,
            {
              role: 'label',
              formula: stateFormula(listed, `${DONE}${r}`, `${ALL}${r}`, `${SEAL}${r}`),
            },
            counts ? { role: 'derived', formula: counts.done, format: '0' } : undefined,
            counts ? { role: 'derived', formula: counts.all, format: '0' } : undefined,
          ]
        : Array(6).fill(undefined);
    putRow(b, r, [
      ...first,
      figure ? { role: 'label', value: figure.label } : undefined,
      figure ? linked(figureFormula(listed, figure, figure.value, isComplete), figure.format) : undefined,
      figure ? linked(figureFormula(listed, figure, figure.u, isComplete), figure.format) : undefined,
      figure ? words(wordsFormula(listed, figure.decision)) : undefined,
      ...(i === 0
        ? ([
            { role: 'unit', ...(listed.isSealed ? { value: 'sealed' } : {}) },
            { role: 'unit', value: listed.id, format: '@' },
          ] as const)
        : []),
    ]);
  }
  return row + rows;
}

function linked(formula: string, format: string): PlanCell | undefined {
  return formula ? { role: 'derived', formula, format } : undefined;
}
function words(formula: string): PlanCell | undefined {
  return formula ? { role: 'label', formula } : undefined;
}

function putGone(b: PlanBuilder, row: number, { sheet, kind, id }: GoneSheet): number {
  putRow(b, row, [
    { role: 'label', value: sheet, format: '@' },
    { role: 'unit', value: kind },
    undefined,
    { role: 'label', value: GONE },
    ...Array(7).fill(undefined),
    { role: 'unit', value: id, format: '@' },
  ]);
  return row + 1;
}

/** A line of the table; cells left out stay empty. */
function putRow(b: PlanBuilder, row: number, cells: readonly (PlanCell | undefined)[]): void {
  HEADS.forEach((_, i) => {
    b.put(`${LETTERS[i]}${row}`, cells[i] ?? { role: 'unit' });
  });
}

export { type GoneSheet, isListed, kindWords, type ListedSheet, tell } from './overview/listed';
export { lookedAt } from './overview/outline';
