import { all, bad, chain, good, invalid, missing, type Outcome } from '../photometry/outcome';
import { cameAs, isBlank, type RawCell } from '../photometry/reading';
import { anyCells, number, type Param } from './params';

/** A number that may be unknown: left out, empty or 0 (as Excel hands an empty cell over) and then not there. */
export function known(description: string, unit: string): Param<number | undefined> {
  const inner = number(description, unit, { min: 0 }, 0);
  return {
    ...inner,
    description: `${description}; leave out or empty if not known`,
    parse: (raw, name) => chain(inner.parse(raw, name), (value) => good(value === 0 ? undefined : value)),
  };
}

/** Numbers of a column with gaps: an empty cell holds no number yet. */
export function gappedColumn(description: string, unit: string): Param<(number | undefined)[]> {
  const inner = anyCells(description);
  return {
    ...inner,
    unit,
    parse: (raw, name) =>
      chain(inner.parse(raw, name), (rows) =>
        all(rows.flat().map((cell, i) => numberOrGap(cell, `${name} in row ${i + 1}`))),
      ),
  };
}

function numberOrGap(cell: RawCell, where: string): Outcome<number | undefined> {
  if (isBlank(cell)) return good(undefined);
  if (typeof cell === 'number' && Number.isFinite(cell)) return good(cell);
  return bad(invalid('not-a-number', where, `The ${where} must be a number; it is ${cameAs(cell)}.`));
}

/** Names down a column, texts or numbers; empty cells are passed over. */
export function nameColumn(description: string): Param<string[]> {
  const inner = anyCells(description);
  return {
    ...inner,
    parse: (raw, name) =>
      chain(inner.parse(raw, name), (rows) => {
        const named = rows
          .flat()
          .map((cell, i) => ({ cell, where: `${name} in row ${i + 1}` }))
          .filter(({ cell }) => !isBlank(cell) && cell !== 0);
        return all(
          named.map(({ cell, where }) =>
            typeof cell === 'object'
              ? bad(invalid('error-cell', where, `The ${where} must be a text; it is ${cameAs(cell)}.`))
              : good(String(cell)),
          ),
        );
      }),
  };
}

/** Any text or number in one cell. 0 is what an empty cell gives and counts as missing. */
export function freeText(description: string): Param<string> {
  const inner = anyCells(description);
  return {
    ...inner,
    isMatrix: false,
    parse: (raw, name) =>
      chain(inner.parse(raw, name), (rows) => {
        const width = Math.max(0, ...rows.map((row) => row.length));
        if (rows.length !== 1 || width !== 1) {
          return bad(
            invalid(
              'shape',
              name,
              `The ${name} must be one cell; it is a range of ${rows.length} × ${width}.`,
            ),
          );
        }
        const cell = rows[0]![0];
        if (isBlank(cell) || cell === 0) return bad(missing(name, `The ${name} is missing.`));
        if (typeof cell === 'object') {
          return bad(invalid('error-cell', name, `The ${name} must be a text; it is ${cameAs(cell)}.`));
        }
        return good(String(cell));
      }),
  };
}

/** A unit behind a number; left out, empty or 0 (an empty cell) where there is none. */
export function unitText(): Param<string> {
  const inner = freeText('unit, e.g. lm; leave out or empty for a ratio');
  return {
    ...inner,
    isOptional: true,
    parse: (raw, name) => (raw === 0 || isBlank(raw as RawCell) ? good('') : inner.parse(raw, name)),
  };
}
