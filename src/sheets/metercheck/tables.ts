import type { PlanBuilder } from '../builder';
import { type Column, type PlacedRows, putRows } from '../rows';
import { FORMAT } from '../run/layout';
import { validateRanges, validateReadings } from '../run/readings';
import { CHECK_REPEATS, CHECK_ROUNDS, type MeterCheckSetup } from './setup';

type Round = Readonly<Record<'number', number>>;
const rounds = (count: number): Round[] => Array.from({ length: count }, (_, i) => ({ number: i + 1 }));

const round: Column<Round> = {
  key: 'round',
  label: 'Round',
  unit: '',
  width: 30,
  role: 'derived',
  value: ({ number }) => number,
};
const reading = (key: string, label: string): Column<Round> => ({
  key,
  label,
  unit: 'display',
  width: 11,
  role: 'reading',
  format: FORMAT.general,
  name: key as Column<Round>['name'] & string,
});
const range = (key: string, label: string, factor: number): Column<Round> => ({
  key,
  label,
  unit: '×',
  width: 11,
  role: 'factor',
  format: FORMAT.factor,
  value: () => factor,
  name: key as Column<Round>['name'] & string,
});
const derived = (
  key: string,
  label: string,
  unit: string,
  format: string,
  formula: (at: (key: string) => string) => string,
): Column<Round> => ({
  key,
  label,
  unit,
  width: 11,
  role: 'derived',
  format,
  formula,
  name: key as Column<Round>['name'] & string,
});

/** All of a list hold numbers, those of `lit` above 0. */
const ready = (lit: readonly string[], dark: readonly string[], value: string) =>
  `IF(${[...lit.map((at) => `COUNTIF(${at},">0")`), ...dark.map((at) => `COUNT(${at})`)].join('*')}=0,"",${value})`;
/** A light that is not above its own dark is no light. */
const above0 = (value: string) => `IF(${value}>0,${value},"")`;

const ERROR = '0.00 %';
/** Found ÷ expected − 1. */
const error = (key: string, found: string, expected: string) =>
  derived(key, 'Error', '', ERROR, (at) =>
    ready([at(found), at(expected)], [], `${at(found)}/${at(expected)}-1`),
  );

function put(b: PlanBuilder, row: number, columns: readonly Column<Round>[], count: number): PlacedRows {
  const placed = putRows(b, row, columns, rounds(count), count);
  for (const { key, role, label } of columns) {
    if (role === 'reading') validateReadings(b, placed.range(key), label);
    if (role === 'factor') validateRanges(b, placed.range(key));
  }
  return placed;
}

export function putRepeats(b: PlanBuilder, row: number): PlacedRows {
  return put(
    b,
    row,
    [round, reading('RepeatReadings', 'Meter lies still'), reading('PlacedReadings', 'Meter put back')],
    CHECK_REPEATS,
  );
}

export function putRanges(b: PlanBuilder, row: number, { meter }: MeterCheckSetup): PlacedRows {
  return put(
    b,
    row,
    [
      round,
      reading('LowReadings', 'Lower range'),
      reading('HighReadings', 'Higher range'),
      range('LowRange', 'Factor, lower', meter.range),
      range('HighRange', 'Factor, higher', meter.nextRange),
      ...(['Low', 'High'] as const).map((which) =>
        derived(`${which}Value`, `${which === 'Low' ? 'Lower' : 'Higher'} × factor`, '', FORMAT.mean, (at) =>
          ready(
            [at(`${which}Readings`), at(`${which}Range`)],
            [],
            `${at(`${which}Readings`)}*${at(`${which}Range`)}`,
          ),
        ),
      ),
      error('RangesError', 'HighValue', 'LowValue'),
    ],
    CHECK_ROUNDS,
  );
}

/** E · (d² + R² + r²), with radii from diameters in millimetres. */
export const FINITE = '((SourceDiameter/2000)^2+(SensorDiameter/2000)^2)';
const LENGTHS = ['NearDistance', 'FarDistance', 'SourceDiameter', 'SensorDiameter', 'DistanceHalf'];

export function putDistances(b: PlanBuilder, row: number, { meter }: MeterCheckSetup): PlacedRows {
  const value = (which: 'Near' | 'Far') =>
    derived(`${which}Value`, `${which} × (d²+R²+r²)`, '', FORMAT.mean, (at) => {
      const [lit, dark, factor] = [at(`${which}Readings`), at(`${which}Hidden`), at(`${which}Range`)];
      const net = `(${lit}-${dark})*${factor}*(${which}Distance^2+${FINITE})`;
      return ready([lit, factor], [dark, ...LENGTHS], above0(net));
    });
  return put(
    b,
    row,
    [
      round,
      reading('NearReadings', 'Near'),
      reading('NearHidden', 'Near, blocked'),
      reading('FarReadings', 'Far'),
      reading('FarHidden', 'Far, blocked'),
      range('NearRange', 'Factor, near', meter.range),
      range('FarRange', 'Factor, far', meter.range),
      value('Near'),
      value('Far'),
      error('DistancesError', 'FarValue', 'NearValue'),
    ],
    CHECK_ROUNDS,
  );
}

export function putSums(b: PlanBuilder, row: number, { meter }: MeterCheckSetup): PlacedRows {
  const parts = ['FirstReadings', 'SecondReadings', 'ThirdReadings'];
  return put(
    b,
    row,
    [
      round,
      reading('DarkReadings', 'All blocked'),
      reading('FirstReadings', 'First alone (red)'),
      reading('SecondReadings', 'Second alone (green)'),
      reading('ThirdReadings', 'Third alone (blue)'),
      reading('AllReadings', 'All at once (white)'),
      range('PartsRange', 'Factor, parts and dark', meter.range),
      range('AllRange', 'Factor, all', meter.range),
      derived('PartsValue', 'Sum of parts, net', '', FORMAT.mean, (at) => {
        const sum = `(${parts.map(at).join('+')}-3*${at('DarkReadings')})*${at('PartsRange')}`;
        return ready([...parts.map(at), at('PartsRange')], [at('DarkReadings')], above0(sum));
      }),
      derived('AllValue', 'All, net', '', FORMAT.mean, (at) => {
        const net = `(${at('AllReadings')}*${at('AllRange')}-${at('DarkReadings')}*${at('PartsRange')})`;
        return ready(
          [at('AllReadings'), at('AllRange'), at('PartsRange')],
          [at('DarkReadings')],
          above0(net),
        );
      }),
      error('SumsError', 'AllValue', 'PartsValue'),
    ],
    CHECK_ROUNDS,
  );
}
