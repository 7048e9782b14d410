/*
 * Hidden names that keep seals. They are names and not custom properties because names are copied with a sheet.
 */

/** Sheet-scoped: the seal of a sheet, in as many parts as it needs: LightSeal, LightSeal.2, … */
export const SEAL = 'LightSeal';
/** Sheet-scoped: when the sheet was sealed and reopened, and by whom. */
export const HISTORY = 'LightSealHistory';
/** Workbook-scoped: the workbook's own mark, to which signatures are bound. */
export const BOOK = 'LightBook';
/** Workbook-scoped: the last seal of each sheet, so that an older one cannot take its place. */
export const REGISTER = 'LightSealRegister';

/** Sheet-scoped names that belong to seals and not to the sheet's layout. */
export const SEAL_NAMES = /^LightSeal(?:History)?(?:\.\d+)?$/i;

/** `('LightSeal', 2)` → `LightSeal.3`; the first part has no number. */
export function partName(name: string, at: number): string {
  return at === 0 ? name : `${name}.${at + 1}`;
}
