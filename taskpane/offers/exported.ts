import { csvText } from '../../src/csv/write';
import { retyped } from '../parse/quantity';
import { OFFER_FIELDS, OFFER_IDS, OFFER_NUMBERS, type OfferTexts } from './fields';
import { type OfferMarks, understandOffer } from './offer';

/**
 * Offers as CSV with our headings. Where decimals have a comma, cells end at semicolons, as spreadsheets of such
 * countries expect. Numbers are written plainly; what is not understood stays as typed.
 */
export function exportOffers(
  offers: readonly { readonly texts: OfferTexts; readonly marks: OfferMarks }[],
  decimalComma: boolean,
): string {
  const rows = offers.map(({ texts, marks }) => {
    const { numbers } = understandOffer(texts, marks);
    return OFFER_IDS.map((id) => {
      const number = OFFER_NUMBERS.find((one) => one === id);
      return (number && numbers[number].value) ?? texts[id].trim();
    });
  });
  const shown = (value: number) => (decimalComma ? retyped(value).replace('.', ',') : retyped(value));
  return csvText([OFFER_IDS.map((id) => OFFER_FIELDS[id].label), ...rows], decimalComma ? ';' : ',', shown);
}
