import { AMBIENT_LIMIT, DRIFT_LIMIT } from '../../../src/photometry/drift';
import { CENTRE, NINE_POINTS } from '../../../src/photometry/points';
import { mean } from '../../../src/photometry/reading';
import { upper } from '../prompt';
import { type Step, stepWords } from '../task';
import type { Candidate, Guard } from './doubt';
import { lightOf, percent, short } from './light';

/** Light of the first white grid, and of the ambient readings, the candidate's own number put in. */
function known({ step, value, factor, steps }: Candidate, pick: (other: Step) => boolean): number[] {
  return steps.filter(pick).flatMap((other) => {
    const light = other.key === step.key ? value * factor : lightOf(other);
    return light === undefined ? [] : [light];
  });
}

/**
 * Ambient light over 1 % of the mean white reading (common practice). Both are known only once white is complete;
 * at the first white reading it is said already, so that nobody reads a whole grid in a room that is too light.
 */
export const ambient: Guard = (candidate) => {
  const { step, steps, task } = candidate;
  const isWhiteGrid = (other: Step) => other.group === 'WhiteReadings';
  const isAmbient = (other: Step) => other.light === 'ambient';
  if (!isWhiteGrid(step) && !isAmbient(step)) return undefined;
  const whites = known(candidate, isWhiteGrid);
  const dark = known(candidate, isAmbient);
  if (whites.length === 0 || dark.length === 0) return undefined;
  const share = mean(dark) / (mean(whites) * task.spectral.white);
  if (share <= AMBIENT_LIMIT) return undefined;
  const isComplete = whites.length === steps.filter(isWhiteGrid).length;
  if (!isComplete && whites.length > 1) return undefined;
  const words = `the ambient light (${short(mean(dark))}) is ${percent(share)} of white (${short(mean(whites))}), over the usual limit of ${percent(AMBIENT_LIMIT)}`;
  return {
    kind: 'ambient',
    isQuestion: isComplete,
    message: isComplete
      ? `${upper(words)}. Darken the room and read again, or keep it: it is taken off all the same.`
      : `By this first reading ${words}. Darken the room now, and fewer readings are lost.`,
    note: `${percent(share)} of white is ambient light, kept`,
  };
};

/** Ambient light at the centre, as the display shows it in white as well; 0 where it is not known. */
function darkAtCentre({ steps }: Candidate): number {
  const read = steps.filter(({ light }) => light === 'ambient');
  const { u, v } = NINE_POINTS[CENTRE]!;
  const own = read.length === 1 ? read[0] : read.find((other) => other.u === u && other.v === v);
  return (own && lightOf(own)) ?? 0;
}

/** The centre's own light has drifted more than 2 % from the first time to the last (common practice). */
export const drift: Guard = (candidate) => {
  const { step, steps, value, factor } = candidate;
  if (step.peers !== 'last') return undefined;
  const { u, v } = NINE_POINTS[CENTRE]!;
  const first = steps.find((other) => other.group === 'WhiteReadings' && other.u === u && other.v === v);
  const before = first && lightOf(first);
  if (!before) return undefined;
  const ratio = (value * factor) / before;
  const power = Math.round(Math.log10(ratio));
  // A slip of the range is no drift.
  const isSlip = power !== 0 && Math.abs(ratio / 10 ** power - 1) < 0.2;
  const dark = darkAtCentre(candidate);
  const change = before > dark ? (value * factor - dark) / (before - dark) - 1 : ratio - 1;
  if (!isSlip && Math.abs(change) <= DRIFT_LIMIT) return undefined;
  const words = `${short(value * factor)} now and ${short(before)} at the beginning`;
  if (isSlip) {
    return {
      kind: 'range',
      isQuestion: true,
      message: `${words}: is the meter still in the range × ${short(factor)}? The keys + and \u2212 change it.`,
      note: `${stepWords(step)}: ${words}, kept`,
    };
  }
  return {
    kind: 'drift',
    isQuestion: true,
    message: `The centre changed by ${percent(change)}${dark > 0 ? ' without the ambient light' : ''}: ${words}. Over ${percent(DRIFT_LIMIT)} the run is usually repeated; was it warm, and is the mode the same?`,
    note: `drift of ${percent(change)} at the centre, kept`,
  };
};
