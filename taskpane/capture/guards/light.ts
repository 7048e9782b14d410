import { numberOf } from '../order';
import type { Step } from '../task';
import type { Candidate } from './doubt';

/** Number on the display × range factor of a step that has been read; undefined where there is none. */
export function lightOf(step: Step): number | undefined {
  const value = numberOf(step.value, step.zero);
  return value === undefined ? undefined : value * step.factor;
}

/** Light of the other readings of the same field, or of the same colour on the tiles. */
export function peersOf({ step, steps }: Candidate): readonly { step: Step; light: number }[] {
  return steps.flatMap((other) => {
    const light = lightOf(other);
    return other.key !== step.key && other.peers === step.peers && light !== undefined
      ? [{ step: other, light }]
      : [];
  });
}

/** A number short enough to be read out: four digits. */
export function short(value: number): string {
  return String(Number(value.toPrecision(4)));
}

export function percent(fraction: number): string {
  return `${Number((100 * fraction).toPrecision(2))} %`.replace('-', '\u2212');
}
