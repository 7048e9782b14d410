import type { DefinedName } from '../../sheets/book';
import { partName } from './names';

/** Excel's limit for a text in a formula, and, with room for what joins the pieces, for a formula. */
const PIECE = 250;
const PART = 7_000;
/** More parts than any sheet we read needs; a longer text is none of ours. */
const PARTS = 400;

/** A text of any length as hidden names: `="…"&"…"`, split where a formula would grow too long. */
export function textNames(name: string, text: string): DefinedName[] {
  return cut(text, PART).map((part, at) => ({
    name: partName(name, at),
    refersTo: `=${cut(part, PIECE)
      .map((piece) => `"${piece.replace(/"/g, '""')}"`)
      .join('&')}`,
    hidden: true,
  }));
}

/** The text kept in such names; undefined if there is none or it is not only text. */
export function textOf(name: string, names: readonly DefinedName[]): string | undefined {
  const byName = new Map(names.map((defined) => [defined.name.toLowerCase(), defined.refersTo]));
  let whole: string | undefined;
  for (let at = 0; at < PARTS; at++) {
    const refersTo = byName.get(partName(name, at).toLowerCase());
    if (refersTo === undefined) return whole;
    const part = literal(refersTo);
    if (part === undefined) return undefined;
    whole = (whole ?? '') + part;
  }
  return undefined;
}

/** Names of all parts that are there, to be removed before others are set. */
export function partsOf(name: string, names: readonly DefinedName[]): string[] {
  const pattern = new RegExp(`^${name}(?:\\.\\d+)?$`, 'i');
  return names.map((defined) => defined.name).filter((each) => pattern.test(each));
}

const LITERAL = /^=?\s*"(?:[^"]|"")*"(?:\s*&\s*"(?:[^"]|"")*")*\s*$/;

function literal(refersTo: string): string | undefined {
  if (refersTo.length > 4 * PART || !LITERAL.test(refersTo)) return undefined;
  return [...refersTo.matchAll(/"((?:[^"]|"")*)"/g)].map(([, piece]) => piece!.replace(/""/g, '"')).join('');
}

/**
 * Cuts a text so that no piece is longer than `length` once its quotes are doubled, as they are in a formula. Pairs
 * of surrogates stay together: half of one cannot be written to a file.
 */
function cut(text: string, length: number): string[] {
  const pieces: string[] = [];
  let [piece, size] = ['', 0];
  for (const character of text) {
    const weight = character === '"' ? 2 : character.length;
    if (size + weight > length) {
      pieces.push(piece);
      [piece, size] = ['', 0];
    }
    piece += character;
    size += weight;
  }
  return [...pieces, piece];
}
