import type { CellName } from '../../sheets/names/all';
import { every } from '../../sheets/names/every';
import type { Plan } from '../../sheets/plan';
import { defaultRunSetup } from '../../sheets/runsetup';
import { SPOT_UNITS, SPOT_VERSION, spotOrder, spotPlan } from '../../sheets/spot';
import type { Finding } from '../check/finding';
import { type SheetView, valueAt } from '../view';
import { cellNamed, cellsNamed, keptPlans, linesOf, numberAt, textAt, withValues } from './cells';
import type { KindAudit, Unknown } from './kind';
import { checkLoneOnes } from './loneones';
import { resultCells } from './results';

const kept = keptPlans();
const STEMS = ['White', 'Red', 'Green', 'Blue'] as const;
const TABLE: readonly CellName[] = [
  'SpotUnits',
  'SpotTurns',
  ...every(STEMS, ['Readings', 'Range', 'Net']),
  'WhiteRelative',
  'ColourRelative',
  'ColourToWhite',
];
const AS_LISTED = 'as listed';

/** The layout with made-up units; drawn or not decides some fixed words. */
function layout(units: number, ambient: boolean, isDrawn: boolean): Plan {
  return kept(`${units} ${ambient} ${isDrawn}`, () =>
    spotPlan(
      {
        title: '',
        units: Array.from({ length: units }, (_, i) => `unit ${i + 1}`),
        reference: 'first',
        ...(isDrawn ? { seed: 'seed' } : {}),
        ambient,
        place: '',
        measuredBy: '',
        date: '',
        meter: defaultRunSetup().meter,
      },
      'expected',
    ),
  );
}

/** How the order of the units came about, told by the cells that say so. */
interface Order {
  readonly seed: string | undefined;
  /** Turns as they stand; undefined unless every number from 1 on stands there once. */
  readonly turns: readonly number[] | undefined;
  /** Turns that seed and names give; undefined where a name is missing or stands twice. */
  readonly drawn: readonly number[] | undefined;
}

function orderOf(view: SheetView, plan: Plan): Order {
  const typed = cellsNamed(plan, 'SpotTurns').map((at) => valueAt(view, at));
  const isWhole = [...typed].sort((a, b) => Number(a) - Number(b)).every((turn, i) => turn === i + 1);
  const isListed = typed.every((turn, i) => turn === i + 1);
  const [seedAt, wordsAt] = [cellNamed(plan, 'SpotSeed'), wordsCell(plan)];
  const told = [textAt(view, seedAt) === AS_LISTED, textAt(view, wordsAt).startsWith('Not drawn'), isListed];
  const seed = told.filter(Boolean).length >= 2 ? undefined : textAt(view, seedAt);
  const units = cellsNamed(plan, 'SpotUnits').map((at) => textAt(view, at));
  const order = spotOrder(units, seed);
  return {
    seed,
    turns: isWhole ? typed.map(Number) : undefined,
    drawn: order.ok ? order.value : undefined,
  };
}

/** The cell beside the seed that tells the rule of the draw. */
function wordsCell(plan: Plan): string {
  return cellNamed(plan, 'SpotSeed').replace(/^[A-Z]+/, 'G');
}

function planOf(view: SheetView): Plan | Unknown {
  const units = linesOf(view, TABLE);
  if (units < SPOT_UNITS.min || units > SPOT_UNITS.max) return { why: `It has ${units} lines of units.` };
  const ambient = ['AmbientReadings', 'AmbientRange'].some((name) => view.places.has(name.toLowerCase()));
  const order = orderOf(view, layout(units, ambient, false));
  const plan = layout(units, ambient, order.seed !== undefined);
  const turns = order.turns ?? order.drawn;
  return withValues(plan, {
    [cellNamed(plan, 'SpotSeed')]: order.seed === undefined ? AS_LISTED : order.seed || '(the seed)',
    ...Object.fromEntries(
      cellsNamed(plan, 'SpotTurns').map((at, i) => [at, turns?.[i] ?? numberAt(view, at) ?? i + 1]),
    ),
  });
}

/** Whether the recorded order is the one that seed and names give: each alone may have been changed. */
function findings(view: SheetView, plan: Plan): Finding[] {
  const { seed, turns, drawn } = orderOf(view, plan);
  const ones = checkLoneOnes(view, plan);
  if (!turns || !drawn || turns.every((turn, i) => turn === drawn[i])) return ones;
  return [
    ...ones,
    {
      sheet: view.sheet.name,
      at: cellNamed(plan, seed === undefined ? 'SpotTurns' : 'SpotSeed'),
      kind: 'draw',
      severity: 'warning',
      message:
        seed === undefined
          ? 'The turns are not in the order of the list, though nothing was drawn.'
          : 'The order of the units is not the one that this seed and these names give: a name, the seed or the order was changed.',
      expected: drawn.join(', '),
      found: turns.join(', '),
      remedy: 'read-again',
    },
  ];
}

export const SPOT: KindAudit = {
  version: SPOT_VERSION,
  plan: planOf,
  results: (view, plan) => resultCells(view, plan),
  findings,
};
