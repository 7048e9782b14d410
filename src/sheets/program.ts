import { version } from '../../package.json';

/** Version of this program. */
export const PROGRAM = version;

/**
 * What the comment of a sheet's mark says: which program built the sheet. It is no part of the layout: programs that do
 * not know it pass over it, and a seal does not cover it.
 */
export const BUILT_BY = `Built by version ${PROGRAM}`;

/** Version of the program that built a sheet; undefined where its mark does not say so, as before 0.2. */
export function builtBy(comment: string | undefined): string | undefined {
  return /^Built by version ([\w.+-]{1,40})$/.exec(comment ?? '')?.[1];
}
