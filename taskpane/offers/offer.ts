import type { Offer } from '../../src/procurement/offers/offer';
import { currencyOf } from '../parse/currency';
import type { DecimalMark } from '../parse/number';
import { type Expectation, shown } from '../parse/quantity';
import { type ReadNumber, readNumber } from '../parse/readnumber';
import { OFFER_FIELDS, OFFER_IDS, OFFER_NUMBERS, type OfferNumber, type OfferTexts } from './fields';
import { type Figure, figureOf } from './figure';

export type OfferMarks = Readonly<Partial<Record<OfferNumber, DecimalMark>>>;

/** An offer as far as it is understood. What is not stated stays away: it is a question, not a zero. */
export interface UnderstoodOffer {
  readonly numbers: Readonly<Record<OfferNumber, ReadNumber>>;
  readonly texts: Readonly<Partial<Record<'bidder' | 'standard' | 'currency', string>>>;
  readonly offer?: Offer;
}

export function isBlankOffer(texts: OfferTexts): boolean {
  return OFFER_IDS.every((id) => texts[id].trim() === '');
}

/** Texts → offer, or what is wrong with which field. */
export function understandOffer(texts: OfferTexts, marks: OfferMarks = {}): UnderstoodOffer {
  const figures = Object.fromEntries(OFFER_NUMBERS.map((id) => [id, figureOf(id, texts[id])])) as Record<
    OfferNumber,
    Figure
  >;
  const numbers = Object.fromEntries(
    OFFER_NUMBERS.map((id) => [id, readFigure(figures[id], OFFER_FIELDS[id].expect!, marks[id])]),
  ) as Record<OfferNumber, ReadNumber>;
  const currencies = currenciesOf(texts, figures);
  const problems = textProblems(texts, currencies);
  const isFit =
    Object.keys(problems).length === 0 &&
    Object.values(numbers).every(({ problem, question }) => !problem && !question);
  if (!isFit) return { numbers, texts: problems };
  const standard = texts.standard.trim();
  const [currency] = currencies;
  return {
    numbers,
    texts: problems,
    offer: {
      bidder: texts.bidder.trim(),
      ...(standard ? { standard } : {}),
      ...(currency ? { currency } : {}),
      ...Object.fromEntries(
        OFFER_NUMBERS.flatMap((id) => (numbers[id].value === undefined ? [] : [[id, numbers[id].value]])),
      ),
    },
  };
}

function readFigure({ text, factor }: Figure, expect: Expectation, mark?: DecimalMark): ReadNumber {
  if (factor === 1) return readNumber(text, expect, mark);
  const scaled = (bound: number | undefined) => (bound === undefined ? undefined : bound / factor);
  const { what, unit } = expect;
  const [moreThan, min, max] = [expect.moreThan, expect.min, expect.max].map(scaled);
  const found = readNumber(
    text,
    {
      what,
      unit,
      ...(moreThan === undefined ? {} : { moreThan }),
      ...(min === undefined ? {} : { min }),
      ...(max === undefined ? {} : { max }),
    },
    mark,
  );
  if (found.value === undefined) return found;
  // One rounding to the digits that people write, so that 0.55 × 1000 is 550.
  const value = Number((found.value * factor).toPrecision(12));
  return { value, echo: `Understood as ${shown(value)}.` };
}

/** The currencies an offer names, in its own field and with its prices. */
function currenciesOf(
  { currency }: OfferTexts,
  { price, sourcePrice }: Record<OfferNumber, Figure>,
): string[] {
  const own = currency.trim();
  // A sign beside a price says the same as the code in the field, if it is its sign.
  const named = [own, price.currency ?? '', sourcePrice.currency ?? ''].filter(Boolean);
  return named.filter((one, i) => !named.slice(0, i).some((other) => isSame(one, other)));
}

function isSame(a: string, b: string): boolean {
  const [one, other] = [a, b].map((name) => currencyOf(name) ?? name);
  return one!.toLowerCase() === other!.toLowerCase();
}

function textProblems(texts: OfferTexts, currencies: readonly string[]): UnderstoodOffer['texts'] {
  const found: Partial<Record<'bidder' | 'standard' | 'currency', string>> = {};
  for (const id of ['bidder', 'standard', 'currency'] as const) {
    const { label, length = 0 } = OFFER_FIELDS[id];
    if (texts[id].trim().length > length) found[id] = `${label}: at most ${length} characters.`;
  }
  if (texts.bidder.trim() === '') found.bidder = 'The offer needs a name.';
  if (currencies.length > 1)
    found.currency = `Currency: the offer names ${currencies.join(' and ')}; one is wanted.`;
  return found;
}
