import { all, chain, good, type Outcome } from '../../photometry/outcome';
import { CENTRE } from '../../photometry/points';
import {
  displayNumbers,
  type GridShape,
  mean,
  NINE,
  netIlluminances,
  SINGLE,
} from '../../photometry/reading';
import { LUX } from '../../photometry/units';
import type { CellName } from '../../sheets/names/all';
import { REPEATS } from '../../sheets/names/shared';
import { sensorFactor } from '../../sheets/run/causes';
import type { RunSetup } from '../../sheets/runsetup';
import { gridOf, type SheetView } from '../view';

/*
 * Light of a run from what was typed, whether or not anything was calculated since: what is odd about readings is said
 * of the readings.
 */

/** Ambient illuminance at the nine points, lx; 0 where none was measured. */
export function typedAmbient(view: SheetView, { ambient, meter }: RunSetup): Outcome<number[]> {
  if (ambient === 'none') return good(Array.from({ length: 9 }, () => 0));
  const shape = ambient === 'once' ? SINGLE : NINE;
  const both = all([
    displayNumbers(gridOf(view, 'AmbientReadings'), shape, 'ambient', 'reading'),
    factors(view, 'AmbientRange', shape),
  ] as const);
  const { unit, calibration } = meter;
  const found = chain(both, ([display, range]) =>
    netIlluminances(display, shape, 'ambient', { unit, range, correction: calibration, ambient: 0 }),
  );
  return chain(found, (lux) => good(Array.from({ length: 9 }, (_, i) => lux[i] ?? lux[0]!)));
}

/** Net white illuminances of the nine points, lx, each from the mean of its repeats. */
export function typedWhite(view: SheetView, setup: RunSetup): Outcome<number[]> {
  const { unit, calibration, corrections } = setup.meter;
  const grids = (['', ...REPEATS] as const).slice(0, setup.repeats);
  const read = all([
    all(grids.map((end) => displayNumbers(gridOf(view, `White${end || 'Readings'}`), NINE, 'white'))),
    factors(view, 'WhiteRange', NINE),
    typedAmbient(view, setup),
  ] as const);
  return chain(read, ([repeats, range, ambient]) => {
    const display = range.map((_, i) => mean(repeats.map((list) => list[i]!)));
    const light = corrections.white * sensorFactor(setup.uncertainty);
    return netIlluminances(display, NINE, 'white', { unit, range, correction: calibration, ambient, light });
  });
}

/** First and last net illuminance at the centre, lx. */
export function typedCentres(view: SheetView, setup: RunSetup): Outcome<readonly [number, number]> {
  const one = (name: CellName, row: number) =>
    displayNumbers([[gridOf(view, name)[row]?.[row] ?? null]], SINGLE, 'centre');
  const four = all([
    one('WhiteReadings', 1),
    one('WhiteRange', 1),
    one('LastReading', 0),
    one('LastRange', 0),
    typedAmbient(view, setup),
  ] as const);
  const { unit, calibration, corrections } = setup.meter;
  const luxPerStep = LUX[unit] * calibration;
  const light = corrections.white * sensorFactor(setup.uncertainty);
  return chain(four, ([[first], [firstRange], [last], [lastRange], ambient]) => {
    const dark = ambient[CENTRE]!;
    const net = (reading: number, range: number) => (reading * range * luxPerStep - dark) * light;
    return good([net(first!, firstRange!), net(last!, lastRange!)] as const);
  });
}

function factors(view: SheetView, name: CellName, shape: GridShape): Outcome<number[]> {
  return displayNumbers(gridOf(view, name), shape, 'range factor');
}
