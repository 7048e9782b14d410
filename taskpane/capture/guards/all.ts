import { fewDigits, loneOne, mixedRanges, order } from './display';
import type { Candidate, Doubt, Guard } from './doubt';
import { field, neighbours } from './neighbours';
import { ambient, drift } from './run';

/** In the order in which they are asked: what makes the number itself doubtful comes first. */
const GUARDS: readonly Guard[] = [loneOne, drift, neighbours, field, fewDigits, order, ambient, mixedRanges];

/** Everything that is odd about a reading, questions and remarks. */
export function doubtsAbout(candidate: Candidate): readonly Doubt[] {
  const found = GUARDS.flatMap((guard) => guard(candidate) ?? []);
  // A slipped range explains every other oddity of the same number.
  const slip = found.find(({ kind }) => kind === 'range' || kind === 'lone-one');
  return slip ? [slip, ...found.filter(({ kind }) => kind === 'order')] : found;
}
