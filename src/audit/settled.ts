import { cellsOf } from '../sheets/address';
import type { BookSheet } from '../sheets/book';
import { DIFFER, PLAIN_ONLY } from '../sheets/phrases/agree';
import { viewOf } from './view';

/** Cells of a sheet that keep it from being vouched for. */
export interface Unsettled {
  /** Functions that have not answered. */
  readonly busy: readonly string[];
  /** Agreement cells that say the two ways to a result differ. */
  readonly differing: readonly string[];
  /** Agreement cells of results that only the plain formula has. */
  readonly alone: readonly string[];
}

/** Every agreement cell is behind a name that ends so. */
const AGREEMENT = /agreement$/;

/** What is still calculating on a sheet of ours, and where function and plain formula do not agree. */
export function unsettledOn(sheet: BookSheet): Unsettled {
  const busy = Object.entries(sheet.cells).flatMap(([at, { value }]) =>
    typeof value === 'object' && value !== null && 'error' in value && value.error === '#BUSY!' ? [at] : [],
  );
  const agreements = [...viewOf(sheet).places]
    .filter(([name]) => AGREEMENT.test(name))
    .flatMap(([, { address }]) => cellsOf(address));
  const saying = (word: string) => agreements.filter((at) => sheet.cells[at]?.value === word);
  return { busy, differing: saying(DIFFER), alone: saying(PLAIN_ONLY) };
}
