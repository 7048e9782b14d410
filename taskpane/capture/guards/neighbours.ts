import { median, OUTLIER_FACTOR } from '../../../src/photometry/plausibility';
import { stepWords } from '../task';
import type { Candidate, Doubt, Guard } from './doubt';
import { lightOf, peersOf, short } from './light';

/**
 * More than three times its neighbours' median, or less than a third (common practice). Where a power of ten
 * brings it back among them, a forgotten range factor is the likeliest cause.
 */
export const neighbours: Guard = (candidate) => {
  const { step, value, factor } = candidate;
  const others = peersOf(candidate);
  if (others.length === 0 || step.peers === 'last') return undefined;
  const middle = median(others.map(({ light }) => light));
  const light = value * factor;
  // A neighbour of 0, in black or ambient light, is no measure for anything.
  if (middle === 0 || light === 0) return undefined;
  const ratio = light / middle;
  if (ratio <= OUTLIER_FACTOR && ratio >= 1 / OUTLIER_FACTOR) return undefined;
  const about =
    others.length === 1
      ? `the one before (${stepWords(others[0]!.step)})`
      : `its ${others.length} neighbours, whose median is ${short(middle)}`;
  const power = Math.round(Math.log10(ratio));
  const isSlip = power !== 0 && Math.abs(Math.log10(ratio) - power) < Math.log10(OUTLIER_FACTOR) / 1.5;
  return isSlip ? slip(candidate, ratio, power, about) : outlier(candidate, ratio, about);
};

/** As near to a power of ten as readings of one field usually are to each other (common practice). */
const NEAR = 1.3;

const PARTS: Readonly<Record<number, string>> = { 10: 'a tenth', 100: 'a hundredth', 1000: 'a thousandth' };

function slip({ step, value, factor }: Candidate, ratio: number, power: number, about: string): Doubt {
  const words = timesWords(ratio, power);
  return {
    kind: 'range',
    isQuestion: true,
    message: `${short(value)} × ${short(factor)} is ${words} ${about}. Is the meter still in the range × ${short(factor)}? The keys + and \u2212 change it.`,
    note: `${stepWords(step)}: ${short(value)} × ${short(factor)} kept, ${words} its neighbours`,
  };
}

/** "about 10 times", "about a tenth of"; farther from a power of ten the ratio itself, "7 times". */
function timesWords(ratio: number, power: number): string {
  const times = 10 ** Math.abs(power);
  if (Math.abs(Math.log10(ratio) - power) > Math.log10(NEAR)) return `${Number(ratio.toPrecision(2))} times`;
  return power > 0 ? `about ${times} times` : `about ${PARTS[times] ?? `one part in ${times}`} of`;
}

function outlier({ step, value, factor }: Candidate, ratio: number, about: string): Doubt {
  const words = `${short(ratio)} times`;
  return {
    kind: 'outlier',
    isQuestion: true,
    message: `${short(value)} × ${short(factor)} is ${words} ${about}. Right point, right field, nothing in the way?`,
    note: `${stepWords(step)}: ${short(value)} × ${short(factor)} kept, ${words} its neighbours`,
  };
}

/** More red, green or blue than white, or more than half of white in black, at the same point: another field is up. */
export const field: Guard = ({ step, value, factor, steps, task }) => {
  const isPrimary = step.light === 'red' || step.light === 'green' || step.light === 'blue';
  const isBlack = step.light === 'black' && step.peers === 'black';
  if (!isPrimary && !isBlack) return undefined;
  const white = steps.find(
    (other) =>
      other.light === 'white' &&
      other.peers === 'white' &&
      other.u === step.u &&
      other.v === step.v &&
      (task.kind === 'run' || other.group === step.group) &&
      lightOf(other) !== undefined,
  );
  if (!white) return undefined;
  const share = (value * factor * task.spectral[step.light]) / (lightOf(white)! * task.spectral.white);
  if (share <= (isBlack ? 0.5 : 1)) return undefined;
  const compared = `${short(value)} × ${short(factor)} in ${step.light} against ${short(lightOf(white)!)} in white`;
  return {
    kind: 'field',
    isQuestion: true,
    message: `${compared} at this point: is the ${step.light} field on the screen, and the range × ${short(factor)}?`,
    note: `${stepWords(step)}: ${compared}, kept`,
  };
};
