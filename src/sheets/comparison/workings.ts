import { columnName } from '../address';
import type { PlanBuilder } from '../builder';
import { linkTo } from '../link';
import { isSamePart, SAME_PART, verdictOn } from '../phrases/agree';
import { BUDGET_RESULT, type BudgetId } from '../run/budgetid';
import { DOF_FORMAT } from '../run/lines/line';
import { tFactor } from '../run/verdict';
import { RED } from '../style';
import type { ComparedRun } from './run';
import { type SharingOptions, sharingOf } from './sharing';

/** Where the runs stand on the sheet, by their place among all: the cell of each one's name and codes. */
export interface Codes {
  readonly name: (run: ComparedRun) => string;
  readonly meter: (run: ComparedRun) => string;
  readonly image: (run: ComparedRun) => string;
}

/** Degrees of freedom of a difference are finite, and so many that their number says nothing. */
const MANY_FORMAT = '[>=1000000]"over a million";0.0';

/** The expanded uncertainty of the difference of two runs: where it stands. */
export type ExpandedAt = (a: ComparedRun, b: ComparedRun) => string;

/** First column of the runs in these blocks: A has the labels, B to D say what is shared. */
const FIRST = 4;
const at = (column: number, row: number) => `${columnName(column)}${row}`;
const SHARED = ['B', 'C', 'D'] as const;

/**
 * For one result: the runs' signed budget parts, what of them is shared, and from both the uncertainty of every
 * difference, step by step. Returns the first row below, and where the expanded uncertainties stand.
 */
export function putWorkings(
  b: PlanBuilder,
  start: number,
  id: BudgetId,
  runs: readonly ComparedRun[],
  codes: Codes,
  options: SharingOptions,
): { readonly next: number; readonly expanded: ExpandedAt } {
  const { label, unit, format, parts: partsFormat } = BUDGET_RESULT[id];
  const of = unit && unit !== ': 1' ? `${label}, ${unit}` : label;
  const labels = runs[0]!.components[id]!;
  const column = (run: ComparedRun) => FIRST + runs.indexOf(run);
  const last = FIRST + runs.length - 1;
  let row = start;

  const heading = (words: string, extra: readonly [string, string, string] = ['', '', '']) => {
    b.put(`A${row}`, { role: 'head', value: words }).height(row, 30);
    SHARED.forEach((name, i) => {
      b.put(`${name}${row}`, { role: 'head', ...(extra[i] ? { value: extra[i] } : {}) });
    });
    for (const run of runs) b.put(at(column(run), row), { role: 'head', formula: `=${codes.name(run)}` });
    row++;
  };
  const line = (words: string, formula: (run: ComparedRun) => string, format: string) => {
    b.put(`A${row}`, { role: 'label', value: words });
    for (const run of runs)
      b.put(at(column(run), row), { role: 'derived', formula: `=${formula(run)}`, format });
    row++;
  };
  const range = (from: number, to = row - 1) => `${at(FIRST, from)}:${at(last, to)}`;

  heading(`Budget parts, ${of}`, ['one meter', 'one image', 'always']);
  const codesRow = row;
  line('Meter', codes.meter, '0');
  line('Image', codes.image, '0');
  b.name(`${id}Meters`, range(codesRow, codesRow), `Meters of the runs compared in ${label}`);
  b.name(`${id}Images`, range(codesRow + 1, codesRow + 1), `Images of the runs compared in ${label}`);
  const parts = row;
  labels.forEach((words, i) => {
    putShared(b, row, words, options);
    line(words, (run) => numberFrom(linkTo(run, `${id}Parts`, i)!), partsFormat);
  });
  const lastPart = row - 1;
  b.name(`${id}Shared`, `B${parts}:D${lastPart}`, `1 where a part of ${label} is one cause for two runs`);
  b.name(`${id}Parts`, range(parts), `${label}: u × sensitivity of each run, signed`);
  row++;

  heading(`Degrees of freedom, ${label}`);
  const nus = row;
  labels.forEach((words, i) => {
    line(words, (run) => numberFrom(linkTo(run, `${id}Nu`, i)!), DOF_FORMAT);
  });
  b.name(`${id}Nu`, range(nus), `${label}: degrees of freedom of each part`);
  row++;

  const block = (run: ComparedRun, from: number) =>
    `${at(column(run), from)}:${at(column(run), from + labels.length - 1)}`;
  const [meterOf, imageOf] = [
    (run: ComparedRun) => at(column(run), codesRow),
    (run: ComparedRun) => at(column(run), codesRow + 1),
  ];
  const fixed = (letter: string) => `$${letter}$${parts}:$${letter}$${lastPart}`;
  const shared = (a: ComparedRun, c: ComparedRun) =>
    `(1-(1-${fixed('B')}*(${meterOf(a)}=${meterOf(c)}))*(1-${fixed('C')}*(${imageOf(a)}=${imageOf(c)}))*(1-${fixed('D')}))`;
  const complete = (a: ComparedRun, c: ComparedRun) =>
    `COUNT(${block(a, parts)},${block(c, parts)})<${2 * labels.length}`;

  /** A table of every run against every other: above the diagonal computed, below it the same again. */
  const square = (
    words: string,
    name: string,
    diagonal: number,
    format: string,
    formula: (a: ComparedRun, c: ComparedRun) => string,
  ) => {
    heading(words);
    const first = row;
    runs.forEach((a, i) => {
      b.put(`A${row}`, { role: 'label', formula: `=${codes.name(a)}` });
      runs.forEach((c, j) => {
        const here = at(FIRST + j, row);
        if (i === j) b.put(here, { role: 'derived', value: diagonal, format });
        else if (j > i)
          b.put(here, { role: 'derived', formula: `=IF(${complete(a, c)},"",${formula(a, c)})`, format });
        else b.put(here, { role: 'derived', formula: `=${at(FIRST + i, first + j)}`, format });
      });
      row++;
    });
    b.name(name, range(first), `${words}, every two runs`);
    row++;
    return (a: ComparedRun, c: ComparedRun) => at(column(c), first + runs.indexOf(a));
  };
  const u = square(`u of the difference, ${of}`, `${id}DifferenceU`, 0, format, (a, c) => {
    const [x, y, s] = [block(a, parts), block(c, parts), shared(a, c)];
    return `SQRT(SUMPRODUCT(${s}*(${x}-${y})^2+(1-${s})*(${x}^2+${y}^2)))`;
  });
  const nu = square(`Degrees of freedom of the difference`, `${id}DifferenceDof`, 1, MANY_FORMAT, (a, c) => {
    const [x, y, s] = [block(a, parts), block(c, parts), shared(a, c)];
    const [n, m] = [block(a, nus), block(c, nus)];
    const sum = `SUMPRODUCT(${s}^2*(${x}-${y})^4/${n}+(1-${s})^2*(${x}^4/${n}+${y}^4/${m}))`;
    return `IF(${u(a, c)}=0,1E+99,MIN(1E+99,${u(a, c)}^4/${sum}))`;
  });
  const expanded = square(`U of the difference, ${of}`, `${id}DifferenceExpanded`, 0, format, (a, c) => {
    return `${u(a, c)}*${tFactor(`INT(${nu(a, c)}*1.000000001)`)}`;
  });
  row = putCheck(b, row - 1, id, runs.length);
  return { next: row + 1, expanded };
}

/** Blank until the run has come so far: then every part is a number. */
function numberFrom(link: string): string {
  return `IF(ISNUMBER(${link}),${link},"")`;
}

function putShared(b: PlanBuilder, row: number, label: string, options: SharingOptions): void {
  const { flags, isOpen } = sharingOf(label, options);
  SHARED.forEach((column, i) => {
    b.put(`${column}${row}`, { role: isOpen ? 'factor' : 'derived', value: flags[i]!, format: '0' });
  });
  if (!isOpen) return;
  const when = ['two runs have one meter', 'two runs have one image', 'it is so for any two runs'];
  SHARED.forEach((column, i) => {
    b.validate({
      range: `${column}${row}`,
      rule: { type: 'number', min: 0, max: 1, whole: true },
      prompt: {
        title: label.slice(0, 32),
        message: `1: one and the same cause wherever ${when[i]!}, so that it counts once. 0: each run has its own.`,
      },
      refusal: { title: 'Shared or not', message: 'Type 1 for shared or 0 for not shared.', style: 'stop' },
    });
  });
}

/** The whole table once more by one custom function, and whether the two agree. */
function putCheck(b: PlanBuilder, row: number, id: BudgetId, runs: number): number {
  const all = `${id}DifferenceExpanded`;
  const custom = `LIGHT.DIFFERENCES(${id}Parts,${id}Nu,${id}Meters,${id}Images,${id}Shared,Level)`;
  b.put(`A${row}`, { role: 'label', value: 'LIGHT function against these' });
  b.put(`B${row}`, { role: 'result' });
  b.put(`C${row}`, {
    role: 'result',
    formula: `=IF(COUNT(${all})<${runs * runs},"waiting",SUMPRODUCT(ABS(${custom}-${all}))/(SUM(${all})+1E-99))`,
    format: '0.0E+00',
  });
  b.put(`D${row}`, {
    role: 'check',
    formula: `=IF(ISERROR(C${row}),"plain formula only",IF(ISNUMBER(C${row}),${verdictOn(isSamePart(`C${row}`))},"waiting"))`,
  });
  b.name(`${id}Agreement`, `D${row}`, 'Whether LIGHT.DIFFERENCES and the plain formulas agree');
  b.alert({ range: `D${row}`, begins: 'differ', ...RED });
  b.note(
    `C${row}`,
    `Largest relative difference between LIGHT.DIFFERENCES and the table above; rounding is ${SAME_PART} at most.`,
  );
  return row + 1;
}
