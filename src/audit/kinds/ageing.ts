import { AGEING_VERSION, ageingPlan } from '../../sheets/ageing';
import { measurementColumns } from '../../sheets/ageing/lines';
import { defaultAgeing } from '../../sheets/ageing/setup';
import type { Book } from '../../sheets/book';
import { isoDay } from '../../sheets/days';
import type { Plan } from '../../sheets/plan';
import type { Finding } from '../check/finding';
import { inWords, isSame } from '../number';
import { gridOf, type SheetView, sheetOf, valueAt } from '../view';
import { cellNamed, cellsNamed, keptPlans, numberAt, tableArea, textAt } from './cells';
import type { KindAudit, Origin } from './kind';
import { resultCells } from './results';

const kept = keptPlans();

/** Figures of a line, and where the step of the pane takes each from when it takes a run sheet's result. */
const LINE_FIGURES = {
  MeasuredHours: undefined,
  MeasuredOutput: 'WhiteLightOutput',
  MeasuredU: 'WhiteExpanded',
  MeasuredOn: 'MeasuredOn',
} as const;
const LINE_NAMES = Object.keys(LINE_FIGURES) as (keyof typeof LINE_FIGURES)[];
const OF_THE_UNIT = ['NeededOutput', 'StatedOutput', 'HoursPerYear', 'Level'] as const;

/** A line says by its remark where it is from; a remark that is the name of a run sheet leads there. */
function origin(view: SheetView, plan: Plan, at: string, book: Book | undefined): Origin | undefined {
  if (valueAt(view, at) === null) return undefined;
  if (OF_THE_UNIT.some((name) => cellNamed(plan, name) === at)) return { source: 'set on this sheet' };
  for (const name of LINE_NAMES) {
    const taken = LINE_FIGURES[name];
    const line = cellsNamed(plan, name).indexOf(at);
    if (line < 0) continue;
    const remark = textAt(view, cellsNamed(plan, 'MeasurementRemark')[line]!);
    const day = numberAt(view, cellsNamed(plan, 'MeasuredOn')[line]!);
    const on = day === undefined ? '' : `, measured on ${isoDay(day)}`;
    const run = book && sheetOf(book, remark);
    const from = run?.identity?.kind === 'run' && taken && run.places.get(taken.toLowerCase())?.address;
    if (!run || !from) {
      return { source: remark === '' ? `typed; the line does not say from where${on}` : `“${remark}”${on}` };
    }
    const finding = movedOn(view, at, run, from);
    return {
      source: `the run sheet “${remark}”${on}`,
      from: { sheet: remark, at: from },
      ...(finding ? { finding } : {}),
    };
  }
  return undefined;
}

/** Says that a figure is not that of the run sheet which its line names, or not any more. */
function movedOn(view: SheetView, at: string, run: SheetView, from: string): Finding | undefined {
  const [here, there] = [valueAt(view, at), valueAt(run, from)];
  if (typeof there !== 'number' || isSame(here, there)) return undefined;
  return {
    sheet: view.sheet.name,
    at,
    kind: 'reading',
    severity: 'note',
    message: `${at} is not what “${run.sheet.name}” says in ${from}, which its line names.`,
    expected: inWords(there),
    found: inWords(here),
    remedy: 'read-again',
  };
}

export const AGEING: KindAudit = {
  version: AGEING_VERSION,
  plan: () => kept('', () => ageingPlan(defaultAgeing(), 'expected')),
  results: (view, plan) => resultCells(view, plan, ['HoursTrust']),
  origin,
  named: (view) =>
    gridOf(view, 'MeasurementRemark')
      .flat()
      .filter((remark): remark is string => typeof remark === 'string' && remark !== ''),
  lines: (plan) => tableArea(plan, 'MeasurementRemark', measurementColumns(0).length),
  findings: (view, plan, book) =>
    LINE_NAMES.flatMap((name) =>
      cellsNamed(plan, name).flatMap((at) => origin(view, plan, at, book)?.finding ?? []),
    ),
};
