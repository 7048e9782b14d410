import type { RunInput } from '../../src/metrology/run/input';
import { mean } from '../../src/photometry/reading';
import { minOverMax } from '../../src/photometry/uniformity';
import { got } from './outcome';

/** Uniformity of a run's white field by the photometry room, for a run with one range and one ambient illuminance. */
export function uniformityOf({ white, ambient }: RunInput): number {
  const points = white.repeats[0]!.map((_, i) => mean(white.repeats.map((grid) => grid[i]!)));
  const lux = points.map((display) => display * (white.range as number) - (ambient!.value as number));
  return got(minOverMax(lux));
}
