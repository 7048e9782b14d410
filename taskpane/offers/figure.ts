import { amountOf, currencyOf } from '../parse/currency';
import type { DecimalMark } from '../parse/number';
import { type Expectation, shown } from '../parse/quantity';
import { type ReadNumber, readNumber } from '../parse/readnumber';

export type OfferNumber = 'white' | 'colour' | 'price' | 'power' | 'sourceLife' | 'sourcePrice' | 'warranty';

/** A figure of an offer as somebody wrote it, taken apart. */
interface Figure {
  /** The number, with what is no known unit left on it to be refused. */
  readonly text: string;
  /** What the number is to be multiplied by: 1000 where kilowatts are written. */
  readonly factor: number;
  /** The currency that stood with it. */
  readonly currency?: string;
}

const KILOWATTS = /\s*(kw|kilowatts?)$/i;
/** Spellings of the unit that may stand behind the number. Lumens keep theirs: the parser knows them. */
const UNITS: Readonly<Partial<Record<OfferNumber, RegExp>>> = {
  power: /\s*(w|watts?)$/i,
  sourceLife: /\s*(h|hrs?|hours?)$/i,
  warranty: /\s*(y|yrs?|years?)$/i,
};

/** "4.100,00 €" → 4.100,00 and EUR; "0,55 kW" → 0,55, a thousand watts each. */
export function figureOf(id: OfferNumber, text: string): Figure {
  if (id === 'price' || id === 'sourcePrice') {
    const { amount, currency } = amountOf(text);
    return { text: amount, factor: 1, ...(currency ? { currency } : {}) };
  }
  // "30 years" ends in a unit; a unit alone is no number and stays to be refused.
  if (!/\d/.test(text)) return { text, factor: 1 };
  const plain = text.trim();
  if (id === 'power' && KILOWATTS.test(plain)) return { text: plain.replace(KILOWATTS, ''), factor: 1000 };
  const unit = UNITS[id];
  return { text: unit ? plain.replace(unit, '') : text, factor: 1 };
}

/** The figure in the field's own unit. */
export function readFigure({ text, factor }: Figure, expect: Expectation, mark?: DecimalMark): ReadNumber {
  if (factor === 1) return readNumber(text, expect, mark);
  const { moreThan, min, max } = expect;
  const bounds = Object.entries({ moreThan, min, max }).flatMap(([name, bound]) =>
    bound === undefined ? [] : [[name, bound / factor]],
  );
  const found = readNumber(text, { ...expect, ...Object.fromEntries(bounds) }, mark);
  if (found.value === undefined) return found;
  // One rounding to the digits that people write, so that 0.55 × 1000 is 550.
  const value = Number((found.value * factor).toPrecision(12));
  return { value, echo: `Understood as ${shown(value)}.` };
}

/** The currencies an offer names, in its own field and with its prices. */
export function currenciesOf(
  texts: Readonly<Record<'currency' | 'price' | 'sourcePrice', string>>,
): readonly string[] {
  const beside = (id: 'price' | 'sourcePrice') => figureOf(id, texts[id]).currency ?? '';
  // A sign beside a price says the same as the code in the field, if it is its sign.
  const named = [texts.currency.trim(), beside('price'), beside('sourcePrice')].filter(Boolean);
  return named.filter((one, i) => !named.slice(0, i).some((other) => isSame(one, other)));
}

function isSame(a: string, b: string): boolean {
  const [one, other] = [a, b].map((name) => currencyOf(name) ?? name);
  return one!.toLowerCase() === other!.toLowerCase();
}
