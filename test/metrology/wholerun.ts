import type { RunInput } from '../../src/metrology/run/input';
import { typicalRun } from './runs';

/** The typical run with every cause of a hand-held meter asked for: spectrum, placing, linearity, room, sensor, one tape. */
export function wholeRun(seed = 1, change: Partial<RunInput> = {}): RunInput {
  const run = typicalRun(seed);
  const primary = ({ spectralHalf: _, ...field }: RunInput['white']) => field;
  return {
    ...run,
    image: { ...run.image, isOneLength: true },
    white: primary(run.white),
    red: primary(run.red!),
    green: primary(run.green!),
    blue: primary(run.blue!),
    black: primary(run.black!),
    ambient: { value: 1.2, half: 0.05, range: 0.1, calibration: 1 },
    spectrum: { f1: 0.03, light: 'LED' },
    placing: { half: 0.01 },
    linearity: { half: 0.01 },
    room: { half: 0.01 },
    sensor: { throwDistance: 2, height: 0.025 },
    blackBound: 'U',
    ...change,
  };
}
