import { type MeterCheck, type MeterCheckInput, meterCheck } from '../../metrology/metercheck/check';
import type { ErrorFound } from '../../metrology/metercheck/limit';
import { bad, chain, good, missing, type Outcome } from '../../photometry/outcome';
import { defaultMeterCheck, METER_CHECK_VERSION, meterCheckPlan } from '../../sheets/metercheck';
import type { CellName, ResultName } from '../../sheets/names/all';
import type { Plan } from '../../sheets/plan';
import type { SheetView } from '../view';
import { cellNamed, cellsNamed, keptPlans, numberAt } from './cells';
import type { KindAudit, Recomputed } from './kind';
import { resultCells } from './results';

const kept = keptPlans();
const planOf = () => kept('', () => meterCheckPlan(defaultMeterCheck(), 'expected'));

/** A column of the check: undefined unless every cell holds a number, where asked for one above 0. */
function column(view: SheetView, plan: Plan, name: CellName, above0 = true): number[] | undefined {
  const values = cellsNamed(plan, name).map((at) => numberAt(view, at));
  const isRead = (value: number | undefined) => value !== undefined && (above0 ? value > 0 : value >= 0);
  return values.every(isRead) ? (values as number[]) : undefined;
}

/** Columns of one part by their keys; undefined unless all are complete. */
function columns<K extends string>(
  view: SheetView,
  plan: Plan,
  names: Readonly<Record<K, CellName>>,
): Record<K, number[]> | undefined {
  const found = Object.entries<CellName>(names).map(
    ([key, name]) => [key, column(view, plan, name, !/Hidden|Dark/.test(name))] as const,
  );
  return found.every(([, values]) => values) ? (Object.fromEntries(found) as Record<K, number[]>) : undefined;
}

/** What was typed on a meter check. */
function inputOf(view: SheetView, plan: Plan): MeterCheckInput | undefined {
  const one = (name: CellName) => numberAt(view, cellNamed(plan, name));
  const digit = one('MeterDigit');
  if (digit === undefined) return undefined;
  const lengths = (
    ['NearDistance', 'FarDistance', 'DistanceHalf', 'SourceDiameter', 'SensorDiameter'] as const
  ).map(one);
  const [nearDistance, farDistance, half, source, sensor] = lengths as number[];
  const distances = columns(view, plan, {
    near: 'NearReadings',
    nearHidden: 'NearHidden',
    far: 'FarReadings',
    farHidden: 'FarHidden',
    nearRange: 'NearRange',
    farRange: 'FarRange',
  });
  const sums = columns(view, plan, {
    dark: 'DarkReadings',
    first: 'FirstReadings',
    second: 'SecondReadings',
    third: 'ThirdReadings',
    all: 'AllReadings',
    partsRange: 'PartsRange',
    allRange: 'AllRange',
  });
  const ranges = columns(view, plan, {
    low: 'LowReadings',
    high: 'HighReadings',
    lowRange: 'LowRange',
    highRange: 'HighRange',
  });
  const repeats = column(view, plan, 'RepeatReadings');
  const placed = column(view, plan, 'PlacedReadings');
  return {
    digit,
    ...(repeats ? { repeats } : {}),
    ...(placed ? { placed } : {}),
    ...(ranges ? { ranges } : {}),
    ...(distances && lengths.every((length) => length !== undefined)
      ? {
          distances: {
            ...distances,
            nearDistance: nearDistance!,
            farDistance: farDistance!,
            distanceHalf: half! / 1000,
            source: source! / 2000,
            sensor: sensor! / 2000,
          },
        }
      : {}),
    ...(sums ? { sums: { ...sums, parts: [sums.first, sums.second, sums.third] } } : {}),
  };
}

function foundOn(view: SheetView, plan: Plan): readonly (readonly [ResultName, Outcome<number>])[] {
  const input = inputOf(view, plan);
  const found: MeterCheck | undefined = input && meterCheck(input);
  const of = (key: keyof MeterCheck): Outcome<number> =>
    found
      ? chain(found[key] as Outcome<number | ErrorFound>, (value) =>
          good(typeof value === 'number' ? value : value.limit),
        )
      : bad(missing('step of the display', 'The step of the display is missing.'));
  return [
    ['Repeatability', of('repeatability')],
    ['Placing', of('placing')],
    ['RangesLimit', of('ranges')],
    ['DistancesLimit', of('distances')],
    ['SumsLimit', of('sums')],
    ['Linearity', of('linearity')],
  ];
}

function recompute(view: SheetView, plan: Plan): Map<string, Recomputed> {
  return new Map(
    foundOn(view, plan).flatMap(([name, value]) =>
      ([name, `${name}Plain`] as CellName[]).map((each) => [cellNamed(plan, each), value] as const),
    ),
  );
}

export const METER_CHECK: KindAudit = {
  version: METER_CHECK_VERSION,
  plan: planOf,
  results: (view, plan) => resultCells(view, plan),
  recompute,
};
