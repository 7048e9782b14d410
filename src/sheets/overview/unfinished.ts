/**
 * A hidden name of an overview that is being written anew: what it listed and is nowhere else, sheets that are gone.
 * It is set before and taken away after; who finds it writes the sheet once more, with these lines.
 */
export const UNFINISHED = 'LightUnfinished';

/** Whether a name is one of its parts. */
export function isUnfinished(name: string): boolean {
  return name === UNFINISHED || name.startsWith(`${UNFINISHED}.`);
}
