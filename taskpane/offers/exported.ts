import { retyped } from '../parse/quantity';
import { OFFER_FIELDS, OFFER_IDS, OFFER_NUMBERS, type OfferTexts } from './fields';
import { type OfferMarks, understandOffer } from './offer';

/** A spreadsheet that opens the file would run these as formulas (common practice: an apostrophe before them). */
const FORMULA = /^[=+\-@\t\r]/;

/**
 * Offers as CSV (RFC 4180) with our headings. Where decimals have a comma, cells end at semicolons, as
 * spreadsheets of such countries expect. Numbers are written plainly; what is not understood stays as typed.
 */
export function exportOffers(
  offers: readonly { readonly texts: OfferTexts; readonly marks: OfferMarks }[],
  decimalComma: boolean,
): string {
  const delimiter = decimalComma ? ';' : ',';
  const lines = offers.map(({ texts, marks }) => {
    const { numbers } = understandOffer(texts, marks);
    return OFFER_IDS.map((id) => {
      const number = OFFER_NUMBERS.find((one) => one === id);
      const value = number && numbers[number].value;
      if (value !== undefined) return plainNumber(value, decimalComma);
      const text = texts[id].trim();
      return FORMULA.test(text) ? `'${text}` : text;
    });
  });
  return [OFFER_IDS.map((id) => OFFER_FIELDS[id].label), ...lines]
    .map((cells) => cells.map((cell) => quoted(cell, delimiter)).join(delimiter))
    .map((line) => `${line}\r\n`)
    .join('');
}

/** As typed plainly, with the decimal mark of the country. */
function plainNumber(value: number, decimalComma: boolean): string {
  const text = retyped(value);
  return decimalComma ? text.replace('.', ',') : text;
}

/** A text with any mark that ends cells somewhere is quoted, so that no program takes it for one. */
function quoted(cell: string, delimiter: string): string {
  const isNumber = /^\d+,\d+$/.test(cell) && delimiter === ';';
  return !isNumber && /[,;\t"\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
