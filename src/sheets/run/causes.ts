import type { MeterInput, RunInput } from '../../metrology/run/input';
import { METER_STATEMENTS } from '../../metrology/words';
import type { UncertaintySetup } from '../runsetup';

/** What a set-up or a sheet says of the causes that the model is asked for since layout 5. */
type Causes = Pick<
  UncertaintySetup,
  | 'f1'
  | 'f2'
  | 'light'
  | 'placing'
  | 'repeatability'
  | 'repeatabilityReadings'
  | 'linearity'
  | 'room'
  | 'throwDistance'
  | 'sensorHeight'
>;

/** Every cause is asked for; what is not known of it is assumed there. */
export function wholeCauses(known: Causes): Partial<RunInput> {
  const { f1, f2, light, placing, linearity, room, throwDistance, sensorHeight } = known;
  const { repeatability: part, repeatabilityReadings: readings } = known;
  return {
    spectrum: { f1, ...(light === 'unknown' ? {} : { light }) },
    placing: { half: placing },
    repeatability: { part, readings },
    oblique: { f2 },
    linearity: { half: linearity },
    room: { half: room },
    sensor: { throwDistance, height: sensorHeight === undefined ? undefined : sensorHeight / 1000 },
    blackBound: 'U',
  };
}

/** How a meter's stated percentage is distributed. */
export function statementOf(statement: unknown): Pick<MeterInput, 'distribution'> {
  const [, certificate, rarely] = METER_STATEMENTS;
  if (statement === certificate) return { distribution: 'normal' };
  return { distribution: statement === rarely ? 'triangular' : 'rectangular' };
}

/** Factor for a sensor in front of the screen, where both distances are known: light falls off with their square. */
export function sensorFactor({
  throwDistance,
  sensorHeight,
}: Pick<Causes, 'throwDistance' | 'sensorHeight'>): number {
  if (throwDistance === undefined || sensorHeight === undefined) return 1;
  return (1 - sensorHeight / 1000 / throwDistance) ** 2;
}
