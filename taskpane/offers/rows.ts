import { unguarded } from '../../src/csv/write';
import type { Offer } from '../../src/procurement/offers/offer';
import { type DecimalMark, plainText, typedNumber } from '../parse/number';
import { EMPTY_OFFER, isNumber, OFFER_FIELDS, type OfferField, type OfferTexts, withoutUnit } from './fields';
import { columnName, type Mapping } from './mapping';
import { understandOffer } from './offer';
import type { OffersTable } from './table';

/** One cell that cannot be taken. */
export interface CellError {
  /** Line of the file, from 1. */
  readonly line: number;
  /** By its heading, else by its place. */
  readonly column: string;
  readonly expected: string;
  readonly came: string;
}

interface ImportedRow {
  readonly line: number;
  readonly texts: OfferTexts;
  /** There where the whole row is clean. */
  readonly offer?: Offer;
  readonly bad: readonly OfferField[];
}

/** A file as understood by its mapping. */
export interface Imported {
  readonly rows: readonly ImportedRow[];
  readonly errors: readonly CellError[];
  /** Which decimal mark the other numbers prove, if they do. */
  readonly proof?: { readonly mark: DecimalMark; readonly example: string };
  /** A number that can be read in two ways; nothing can be imported before that is answered. */
  readonly question?: { readonly text: string; readonly point: number; readonly comma: number };
  /** Why nothing can be read at all. */
  readonly objection: string;
}

/** Ways to write "no figure" in a table. */
const NOT_STATED = /^([-\u2013\u2014]+|n\/?a|none|not stated|k\. ?a\.)$/i;

/** Reads every line by what its columns are. */
export function readRows(
  table: OffersTable,
  mapping: Mapping,
  hasHeadings: boolean,
  answered?: DecimalMark,
): Imported {
  const { lines } = table;
  if (!mapping.includes('bidder'))
    return { rows: [], errors: [], objection: 'Say which column names the bidder or the offer.' };
  const headings = hasHeadings ? (lines[0]?.cells ?? []) : [];
  const data = hasHeadings ? lines.slice(1) : lines;
  if (data.length === 0) return { rows: [], errors: [], objection: 'There is no line with an offer.' };
  const typed = data.map(({ line, cells }) => ({ line, texts: textsOf(cells, mapping, table) }));
  const proof = provenMark(typed.map(({ texts }) => texts));
  const mark = answered ?? proof?.mark;
  const errors: CellError[] = [];
  const errorAt = (line: number, id: OfferField, came: string) => {
    const column = mapping.indexOf(id);
    errors.push({
      line,
      column: columnName(headings[column], column),
      expected: OFFER_FIELDS[id].wanted,
      came: came.trim() === '' ? 'nothing' : `“${came}”`,
    });
  };
  let question: Imported['question'];
  const rows = typed.map(({ line, texts }): ImportedRow => {
    const marks = mark ? Object.fromEntries(Object.keys(texts).map((id) => [id, mark])) : {};
    const found = understandOffer(texts, marks);
    const bad: OfferField[] = [];
    for (const id of mapping) {
      if (id === undefined) continue;
      const isBad = isNumber(id) ? found.numbers[id].problem : found.texts[id];
      const asked = isNumber(id) ? found.numbers[id].question : undefined;
      if (asked) question ??= { text: texts[id], point: asked.point, comma: asked.comma };
      if (!isBad && !asked) continue;
      bad.push(id);
      if (isBad) errorAt(line, id, texts[id]);
    }
    return { line, texts, bad, ...(found.offer ? { offer: found.offer } : {}) };
  });
  return { rows, errors, objection: '', ...(proof ? { proof } : {}), ...(question ? { question } : {}) };
}

function textsOf(cells: readonly string[], mapping: Mapping, { columns, how }: OffersTable): OfferTexts {
  const separator = how.includes('semicolon') ? ';' : ',';
  const texts: Record<OfferField, string> = { ...EMPTY_OFFER };
  for (let i = 0; i < columns; i++) {
    const id = mapping[i];
    if (id === undefined) continue;
    // What was exported stood behind an apostrophe where a spreadsheet would have taken it for a formula.
    const text = plainText(unguarded(cells[i] ?? '', separator));
    texts[id] = isNumber(id) && NOT_STATED.test(text) ? '' : text;
  }
  return texts;
}

/** The decimal mark that the file's numbers prove, if they agree. */
function provenMark(rows: readonly OfferTexts[]): Imported['proof'] {
  const proofs = rows.flatMap((texts) =>
    (Object.keys(texts) as OfferField[]).flatMap((id) => {
      if (!isNumber(id)) return [];
      const number = typedNumber(withoutUnit(id, texts[id]));
      return number.kind === 'number' && number.proves ? [{ mark: number.proves, example: texts[id] }] : [];
    }),
  );
  const first = proofs[0];
  return first && proofs.every(({ mark }) => mark === first.mark) ? first : undefined;
}

/** "Line 3, column “Power”: expected watts above 0, came “abc”." */
export function sentence({ line, column, expected, came }: CellError): string {
  return `Line ${line}, column ${column}: expected ${expected}, came ${came}.`;
}
