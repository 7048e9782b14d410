import type { Line } from '../../src/csv/split';
import { unguarded } from '../../src/csv/write';
import type { Offer } from '../../src/procurement/offers/offer';
import { readAll } from '../form/read';
import { columnName } from '../importing/columnname';
import { markQuestion } from '../importing/questions';
import type { Choices, ReadLines } from '../importing/tableimport';
import { currencyIn } from '../parse/currency';
import { type DecimalMark, plainText, typedNumber } from '../parse/number';
import {
  CURRENCY_MAX,
  EMPTY_OFFER,
  isNumber,
  OFFER_FIELDS,
  OFFER_IDS,
  OFFER_NUMBERS,
  type OfferField,
  type OfferTexts,
} from './fields';
import { figureOf } from './figure';
import type { Mapping } from './mapping';
import { offerOf } from './offer';
import type { OffersTable } from './table';

export interface ImportedRow {
  readonly line: Line;
  readonly texts: OfferTexts;
  /** There where the whole row is clean. */
  readonly offer?: Offer;
  readonly bad: readonly OfferField[];
  /** Every cell that cannot be taken: where, what was expected, what came. */
  readonly problems: readonly string[];
}

/** A file as understood by its mapping. */
export type Imported = ReadLines<ImportedRow>;

/** Ways to write "no figure" in a table. */
const NOT_STATED = /^([-\u2013\u2014]+|n\/?a|none|not stated|k\. ?a\.)$/i;

/** Reads every line by what its columns are. */
export function readRows(table: OffersTable, choices: Choices<Mapping>): Imported {
  const { columns: mapping, hasHeadings, decisions } = choices;
  const nothing = (objection: string): Imported => ({ rows: [], questions: [], objection });
  if (!mapping.includes('bidder')) return nothing('Say which column names the bidder or the offer.');
  const headings = hasHeadings ? (table.lines[0]?.cells ?? []) : [];
  const data = hasHeadings ? table.lines.slice(1) : table.lines;
  if (data.length === 0) return nothing('There is no line with an offer.');
  const typed = data.map((line) => ({ line, texts: textsOf(line, table, mapping, headings) }));
  const proof = provenMark(typed.map(({ texts }) => texts));
  const mark = decisions.mark ?? proof?.mark;
  const nameOf = (id: OfferField) => {
    const column = mapping.indexOf(id);
    return column < 0 ? OFFER_FIELDS[id].label : columnName(headings[column], column);
  };
  const questions: Imported['questions'][number][] = [];
  const rows = typed.map(({ line, texts }): ImportedRow => {
    const at = `Line ${line.line}`;
    if (line.fault) return { line, texts, bad: [], problems: [`${at}: ${line.fault}.`] };
    const reads = readAll(OFFER_FIELDS, texts, mark);
    const offer = offerOf(texts, reads);
    const bad: OfferField[] = [];
    const problems: string[] = [];
    for (const id of OFFER_IDS) {
      const { problem, question: asked } = reads[id];
      if (asked && questions.length === 0)
        questions.push(markQuestion({ ...asked, text: texts[id] }, line.line, 'list'));
      if (!problem && !asked) continue;
      bad.push(id);
      if (!problem) continue;
      // Several currencies are no fault of one cell: the sentence says them all.
      const isOfOffer = id === 'currency' && texts.currency.length <= CURRENCY_MAX;
      const came = texts[id].trim() === '' ? 'nothing' : `“${texts[id]}”`;
      problems.push(
        isOfOffer
          ? `${at}, ${problem}`
          : `${at}, column ${nameOf(id)}: expected ${OFFER_FIELDS[id].wanted}, came ${came}.`,
      );
    }
    return { line, texts, bad, problems, ...(offer ? { offer } : {}) };
  });
  return { rows, questions, objection: '', ...(proof ? { proof } : {}) };
}

function textsOf(
  { cells }: Line,
  { mark }: OffersTable,
  mapping: Mapping,
  headings: readonly string[],
): OfferTexts {
  const texts: Record<OfferField, string> = { ...EMPTY_OFFER };
  mapping.forEach((id, i) => {
    if (id === undefined) return;
    // What was exported stood behind an apostrophe where a spreadsheet would have taken it for a formula.
    const text = plainText(unguarded(cells[i] ?? '', mark === 'semicolon' ? ';' : ','));
    texts[id] = isNumber(id) && NOT_STATED.test(text) ? '' : text;
    if (texts[id] === '') return;
    // What a heading says of all its figures is said of each that does not say it itself.
    const heading = headings[i] ?? '';
    if (!/\d/.test(text)) return;
    if (id === 'power' && /\bkw\b/i.test(heading) && /\d$/.test(text)) texts[id] = `${text} kW`;
    if ((id === 'price' || id === 'sourcePrice') && !figureOf(id, text).currency)
      texts[id] = `${text} ${currencyIn(heading) ?? ''}`.trim();
  });
  return texts;
}

/** The decimal mark that the file's numbers prove, if they agree. */
function provenMark(rows: readonly OfferTexts[]): Imported['proof'] {
  const proofs = rows.flatMap((texts) =>
    OFFER_NUMBERS.flatMap((id) => {
      const number = typedNumber(figureOf(id, texts[id]).text);
      return number.kind === 'number' && number.proves ? [{ mark: number.proves, example: texts[id] }] : [];
    }),
  );
  const first = proofs[0];
  if (!first || proofs.some(({ mark }) => mark !== first.mark)) return undefined;
  return rows.some((texts) => isTooDim(texts, first.mark)) ? undefined : first;
}

/** No front projector gives less, lm (common practice): a mark that makes 5.9 lm of "5,900" is asked about all the same. */
const DIM = 20;

function isTooDim(texts: OfferTexts, mark: DecimalMark): boolean {
  return (['white', 'colour'] as const).some((id) => {
    const { text } = figureOf(id, texts[id]);
    const number = typedNumber(text, mark);
    return typedNumber(text).kind === 'ambiguous' && number.kind === 'number' && number.value < DIM;
  });
}
