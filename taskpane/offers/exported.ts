import { csvText } from '../../src/csv/write';
import { readAll } from '../form/read';
import { retyped } from '../parse/quantity';
import { OFFER_FIELDS, OFFER_IDS, type OfferTexts } from './fields';

/**
 * Offers as CSV with our headings. Where decimals have a comma, cells end at semicolons, as spreadsheets of such
 * countries expect. Numbers are written plainly; what is not understood stays as typed.
 */
export function exportOffers(offers: readonly OfferTexts[], decimalComma: boolean): string {
  const rows = offers.map((texts) => {
    const reads = readAll(OFFER_FIELDS, texts);
    return OFFER_IDS.map((id) => reads[id].value ?? texts[id].trim());
  });
  const shown = (value: number) => (decimalComma ? retyped(value).replace('.', ',') : retyped(value));
  return csvText([OFFER_IDS.map((id) => OFFER_FIELDS[id].label), ...rows], decimalComma ? ';' : ',', shown);
}
