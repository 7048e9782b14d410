import { judge, type Verdict } from '../../../metrology/decision';
import { bad, chain, good, missing, type Outcome } from '../../../photometry/outcome';
import { drawSample } from '../../../procurement/lot/draw';
import { type SamplingPlan, samplingPlan } from '../../../procurement/lot/plan';
import { acceptProbability } from '../../../procurement/lot/probability';
import { COUNTINGS, type Counting, count, lotVerdict } from '../../../procurement/lot/verdict';
import { UNIT_COLUMNS } from '../../../sheets/acceptance/units';
import { rectOf } from '../../../sheets/address';
import type { CellName } from '../../../sheets/names/all';
import type { Plan } from '../../../sheets/plan';
import type { SheetView } from '../../view';
import { cellNamed, cellsNamed, type LineAt, numberAt, tableLines, textAt } from '../cells';
import type { Recomputed } from '../kind';

/** Everything a lot's sheet says, worked out again from its list, its limits and the figures of its units. */
export function recomputeLot(view: SheetView, plan: Plan): Map<string, Recomputed> {
  const lines = tableLines(plan, 'Serials', UNIT_COLUMNS);
  const serials = lines.map((at) => textAt(view, at('serial')));
  const lotSize = serials.filter((serial) => serial !== '').length;
  const aql = numberAt(view, cellNamed(plan, 'Aql'));
  const sampling =
    aql === undefined ? bad(missing('AQL', 'The AQL is missing.')) : samplingPlan(lotSize, aql);
  const of = (pick: (found: SamplingPlan) => number | string): Recomputed =>
    chain(sampling, (found) => good(pick(found)));
  const units = lines.map((at) => decided(view, plan, at));
  const inspected = units.filter(({ state }) => state === 'conforms' || state === FAILED).length;
  const nonconforming = units.filter(({ state }) => state === FAILED).length;
  const drawn = lines.filter((at) => numberAt(view, at('place')) !== undefined).length;
  const verdict = chain(sampling, (found): Recomputed => {
    if (drawn !== found.sampleSize) return bad(missing('draw', 'The draw does not fit the plan.'));
    return chain(lotVerdict(found, { inspected, nonconforming }), ({ state }) => good(state));
  });
  return new Map([
    [cellNamed(plan, 'LotSize'), good(lotSize)],
    ...twice(
      plan,
      'CodeLetter',
      of(({ letter }) => letter),
    ),
    ...twice(
      plan,
      'SampleSize',
      of(({ sampleSize }) => sampleSize),
    ),
    ...twice(
      plan,
      'AcceptNumber',
      of(({ accept }) => accept),
    ),
    [cellNamed(plan, 'Inspected'), good(inspected)],
    [cellNamed(plan, 'Nonconforming'), good(nonconforming)],
    ...twice(plan, 'LotVerdict', verdict),
    [
      cellNamed(plan, 'DrawRepeated'),
      chain(verdict, () =>
        chain(sampling, ({ sampleSize }) => repeated(view, plan, lines, serials, sampleSize)),
      ),
    ],
    ...lines.flatMap((at, i): [string, Recomputed][] => [
      [at('whiteVerdict'), units[i]!.white],
      [at('colourVerdict'), units[i]!.colour],
      [at('decision'), good(units[i]!.state)],
    ]),
    ...recomputeCurve(plan, sampling),
  ]);
}

/** By function in column B, by plain formula behind the name. */
function twice(plan: Plan, name: CellName, value: Recomputed): [string, Recomputed][] {
  const at = cellNamed(plan, name);
  return [
    [`B${rectOf(at).row + 1}`, value],
    [at, value],
  ];
}

const FAILED = 'does not conform';

interface Decided {
  readonly white: Outcome<Verdict | ''>;
  readonly colour: Outcome<Verdict | ''>;
  readonly state: string;
}

const LIMITS = ['LeastWhite', 'LeastColour'] as const;

/** The decision on one unit and how it counts. */
function decided(view: SheetView, plan: Plan, at: LineAt): Decided {
  const least = (name: CellName) => numberAt(view, cellNamed(plan, name));
  const limits = LIMITS.map(least);
  const white = verdictOn(numberAt(view, at('white')), numberAt(view, at('whiteU')), limits[0]);
  const colour = verdictOn(numberAt(view, at('colour')), numberAt(view, at('colourU')), limits[1]);
  return { white, colour, state: stateOf(view, plan, at, limits, [white, colour]) };
}

function stateOf(
  view: SheetView,
  plan: Plan,
  at: LineAt,
  limits: readonly (number | undefined)[],
  both: readonly Outcome<Verdict | ''>[],
): string {
  const asked = limits.filter((limit) => limit !== undefined).length;
  const verdicts = both.flatMap((one) => (one.ok && one.value !== '' ? [one.value] : []));
  const counting = COUNTINGS.find((each) => each === textAt(view, cellNamed(plan, 'Counting')));
  if (textAt(view, at('serial')) === '') return '';
  if (numberAt(view, at('place')) === undefined) return 'not drawn';
  const filled = LIMITS.filter((name) => textAt(view, cellNamed(plan, name)) !== '').length;
  if (filled !== asked) return 'limit is no number';
  if (asked === 0) return 'nothing judged';
  if (verdicts.length < asked) return 'to be measured';
  return count(verdicts, counting ?? ('value' satisfies Counting)).nonconforming === 0 ? 'conforms' : FAILED;
}

/** ILAC-G8:09/2019, 4.2.3 with a guard band of U; by the value alone where no U is known. */
function verdictOn(
  value: number | undefined,
  expanded: number | undefined,
  least: number | undefined,
): Outcome<Verdict | ''> {
  if (value === undefined || least === undefined) return good('');
  if (!expanded) return good(value >= least ? 'pass' : 'fail');
  return chain(judge({ value, expanded }, { lower: least }), ({ verdict }) => good(verdict));
}

/** Whether the recorded tickets are those that list and seed give. */
function repeated(
  view: SheetView,
  plan: Plan,
  lines: readonly LineAt[],
  serials: readonly string[],
  sampleSize: number,
): Recomputed {
  const listed = serials.filter((serial) => serial !== '');
  const draw = drawSample(listed, sampleSize, textAt(view, cellNamed(plan, 'Seed')));
  return chain(draw, ({ drawn }) => {
    const tickets = new Set(drawn.map(({ ticket }) => ticket));
    const found = lines.filter((at) => tickets.has(textAt(view, at('ticket')))).length;
    return good(found === sampleSize ? 'the same' : 'differs');
  });
}

/** Points of the curve: unit by unit up to ten, then in steps to about half the lot. */
const SINGLE = 10;

function recomputeCurve(plan: Plan, sampling: Outcome<SamplingPlan>): [string, Recomputed][] {
  const [points, probabilities] = [
    cellsNamed(plan, 'CurveNonconforming'),
    cellsNamed(plan, 'CurveProbability'),
  ];
  return points.flatMap((at, k): [string, Recomputed][] => {
    const nonconforming = chain(sampling, ({ lotSize }): Recomputed => {
      const step = Math.max(1, Math.ceil((lotSize / 2 - SINGLE) / (points.length - 1 - SINGLE)));
      const D = k <= SINGLE ? k : SINGLE + (k - SINGLE) * step;
      return good(D > lotSize ? '' : D);
    });
    const probability = chain(sampling, (rule) =>
      chain(
        nonconforming,
        (D): Recomputed => (typeof D === 'string' ? good('') : acceptProbability(rule, D)),
      ),
    );
    const row = rectOf(at).row + 1;
    return [
      [at, nonconforming],
      [`C${row}`, probability],
      [probabilities[k]!, probability],
    ];
  });
}
