import { hoursCell } from '../../functions/ageing';
import { bad, chain, good, invalid, missing, type Outcome } from '../../photometry/outcome';
import { type AgeingFit, fitAgeing } from '../../procurement/ageing/fit';
import {
  CAP_FACTOR,
  type HoursTo,
  hoursTo,
  hoursToPart,
  type Initial,
  initialOf,
} from '../../procurement/ageing/hours';
import { nextMeasurement } from '../../procurement/ageing/next';
import type { AgeingPoint } from '../../procurement/ageing/points';
import { rectOf } from '../../sheets/address';
import { AGEING_VERSION, ageingPlan } from '../../sheets/ageing';
import { measurementColumns } from '../../sheets/ageing/lines';
import { defaultAgeing } from '../../sheets/ageing/setup';
import type { Book } from '../../sheets/book';
import { dayNumber, isoDay } from '../../sheets/days';
import type { CellName } from '../../sheets/names/all';
import type { Plan } from '../../sheets/plan';
import type { Finding } from '../check/finding';
import { inWords, isSame } from '../number';
import { gridOf, type SheetView, sheetOf, valueAt } from '../view';
import { cellNamed, cellsNamed, keptPlans, numberAt, tableArea, textAt } from './cells';
import type { KindAudit, Origin, Recomputed } from './kind';
import { resultCells } from './results';

const kept = keptPlans();
/** Measurements that count, in the order of the sheet; a line that is odd stops everything, as on the sheet. */
function pointsOf(view: SheetView, plan: Plan): Outcome<AgeingPoint[]> {
  const column = (name: CellName) => cellsNamed(plan, name).map((at) => valueAt(view, at));
  const [hours, outputs] = [column('MeasuredHours'), column('MeasuredOutput')];
  const points: AgeingPoint[] = [];
  let isBegun = false;
  for (const [i, output] of outputs.entries()) {
    const at = hours[i];
    const line = `line ${i + 1}`;
    if (typeof output === 'number') {
      const isFit = typeof at === 'number' && at >= 0 && output > 0 && !(at === 0 && isBegun);
      if (!isFit) return bad(invalid('not-a-number', line, `Line ${i + 1} cannot be used as it stands.`));
      points.push({ hours: at, output });
    }
    if (typeof at === 'number' && at > 0) isBegun = true;
  }
  return good(points);
}

interface Fitted {
  readonly fit: AgeingFit;
  readonly initial: Initial;
  readonly level: number;
}

function fittedOf(view: SheetView, plan: Plan): Outcome<Fitted> {
  const level = numberAt(view, cellNamed(plan, 'Level'));
  if (level === undefined) return bad(missing('level', 'The level of confidence is missing.'));
  return chain(pointsOf(view, plan), (points) =>
    chain(fitAgeing(points), (fit) =>
      chain(initialOf(fit, numberAt(view, cellNamed(plan, 'StatedOutput'))), (initial) =>
        good({ fit, initial, level }),
      ),
    ),
  );
}

/** What is found twice in a row: by function in the column before, by plain formula behind the name. */
function twice(plan: Plan, name: CellName, line: number, value: Recomputed): [string, Recomputed][] {
  const at = cellsNamed(plan, name)[line]!;
  const { row, column } = rectOf(at);
  const custom = `${String.fromCharCode(64 + column)}${row + 1}`;
  return [
    [custom, value],
    [at, value],
  ];
}

const TRUST = {
  'no fall seen': 'no fall seen',
  reached: 'within what was measured',
  ahead: 'projected',
  'beyond the cap': 'beyond the cap',
} as const;

function recomputeHours(plan: Plan, line: number, hours: Outcome<HoursTo>): [string, Recomputed][] {
  const of = (pick: (found: HoursTo) => number | string): Recomputed =>
    chain(hours, (found) => good(pick(found)));
  return [
    ...twice(plan, 'HoursTo', line, of(hoursCell)),
    ...twice(
      plan,
      'HoursToFrom',
      line,
      of(({ interval }) => interval?.lower ?? ''),
    ),
    ...twice(
      plan,
      'HoursToUntil',
      line,
      of(({ interval }) => interval?.upper ?? (interval ? 'open' : '')),
    ),
    [cellsNamed(plan, 'HoursTrust')[line]!, of(({ state }) => TRUST[state])],
  ];
}

function recomputeNext(
  view: SheetView,
  plan: Plan,
  fitted: Outcome<Fitted>,
  hours: Outcome<HoursTo>,
): [string, Recomputed][] {
  const hoursPerYear = numberAt(view, cellNamed(plan, 'HoursPerYear'));
  const next = chain(fitted, ({ fit }) =>
    chain(hours, (toNeed) => {
      if (hoursPerYear === undefined) return bad(missing('use', 'The hours of use a year are missing.'));
      const days = cellsNamed(plan, 'MeasuredOn').flatMap((at, i) => {
        const [day, when] = [numberAt(view, at), numberAt(view, cellsNamed(plan, 'MeasuredHours')[i]!)];
        return day !== undefined && when === fit.lastHours ? [day] : [];
      });
      const lastDate = days.length === 0 ? {} : { lastDate: isoDay(Math.max(...days)) };
      return chain(nextMeasurement(fit, toNeed, { hoursPerYear, ...lastDate }), (found) =>
        good({ ...found, after: found.hours - fit.lastHours }),
      );
    }),
  );
  return [
    [cellNamed(plan, 'NextAfter'), chain(next, ({ after }) => good(after))],
    [cellNamed(plan, 'NextHours'), chain(next, (found) => good(found.hours))],
    [
      cellNamed(plan, 'NextDay'),
      chain(next, ({ date }) =>
        date === undefined
          ? bad(missing('day', 'The day of the last one is not known.'))
          : good(dayNumber(date)),
      ),
    ],
  ];
}

function recompute(view: SheetView, plan: Plan): Map<string, Recomputed> {
  const fitted = fittedOf(view, plan);
  const needed = numberAt(view, cellNamed(plan, 'NeededOutput'));
  const part = (fraction: number) =>
    chain(fitted, ({ fit, initial, level }) => hoursToPart(fit, initial, fraction, level));
  const toNeed =
    needed === undefined
      ? undefined
      : chain(fitted, ({ fit, initial, level }) => hoursTo(fit, initial, needed, level));
  const [to70, to50] = [part(0.7), part(0.5)];
  const of = (pick: (found: Fitted) => number): Recomputed => chain(fitted, (found) => good(pick(found)));
  return new Map([
    ...twice(
      plan,
      'FallRate',
      0,
      of(({ fit }) => fit.rate),
    ),
    ...twice(
      plan,
      'StartOutput',
      0,
      of(({ fit }) => fit.start),
    ),
    ...twice(
      plan,
      'InitialOutput',
      0,
      of(({ initial }) => initial.output),
    ),
    ...twice(
      plan,
      'CapHours',
      0,
      of(({ fit, initial }) => initial.hours + CAP_FACTOR * (fit.lastHours - initial.hours)),
    ),
    ...recomputeHours(plan, 0, to70),
    ...recomputeHours(plan, 1, to50),
    ...(toNeed ? recomputeHours(plan, 2, toNeed) : []),
    ...recomputeNext(view, plan, fitted, toNeed ?? to70),
  ]);
}

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
  recompute,
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
