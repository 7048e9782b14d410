import { quoteSheet } from '../../sheets/address';
import { tokens } from '../../sheets/tokens';

/** Where a cell of another sheet stands now; undefined where it cannot be said, itself where nothing moved. */
export type Moved = (sheet: string, at: string) => string | undefined;

/**
 * A formula of an older sheet whose links to other sheets follow these to where today's layout has their cells;
 * undefined where a linked cell has no place there.
 *
 * @param own what its own sheet is called for `moved`; its own cells stay as they are unless told
 */
export function retarget(formula: string, moved: Moved, own?: string): string | undefined {
  const pieces = tokens(formula);
  let sheet = own;
  let isLost = false;
  const texts = pieces.map(({ kind, text }, i) => {
    const isRange = text === ':' && pieces[i - 1]?.kind === 'cell' && pieces[i + 1]?.kind === 'cell';
    if (kind === 'other' && text === '!') {
      sheet = nameOf(pieces[i - 1]?.text ?? '');
      return text;
    }
    if (kind === 'cell' && sheet !== undefined) {
      const at = moved(sheet, text.replaceAll('$', '').toUpperCase());
      if (at === undefined) isLost = true;
      return at === undefined ? text : locked(text, at);
    }
    if (!isRange) sheet = own;
    return text;
  });
  return isLost ? undefined : texts.join('');
}

/** A formula with a sheet's name in place of another's. Quoted, if it has to be. */
export function renamedLinks(formula: string, from: string, to: string): string {
  const pieces = tokens(formula);
  return pieces
    .map(({ text }, i) => {
      const isSheet = pieces[i + 1]?.text === '!' && nameOf(text).toLowerCase() === from.toLowerCase();
      return isSheet ? quoteSheet(to) : text;
    })
    .join('');
}

function nameOf(text: string): string {
  return text.startsWith("'") ? text.slice(1, -1).replaceAll("''", "'") : text;
}

/** The new place with the locks of the old one. */
function locked(before: string, at: string): string {
  const [, column = '', row = ''] = /^([A-Z]+)(\d+)$/.exec(at) ?? [];
  const [, ofColumn = '', ofRow = ''] = /^(\$?)[A-Za-z]+(\$?)/.exec(before) ?? [];
  return `${ofColumn}${column}${ofRow}${row}`;
}
