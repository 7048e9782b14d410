/** Currencies by their code (ISO 4217), as the browser knows them. */
const CODES: ReadonlySet<string> = new Set(Intl.supportedValuesOf?.('currency') ?? []);
/** Signs and words that stand for one currency only. Others, such as $, £ and kr, are kept as they are written. */
const ONE: Readonly<Record<string, string>> = { '€': 'EUR', euro: 'EUR', euros: 'EUR' };
const SHARED = /^(?:(?:[A-Z]{1,3})?\p{Sc}|kr\.?|s?fr\.?)$/iu;

/** "€" → "EUR", "eur" → "EUR", "US$" → "US$"; undefined for anything that is no currency. */
export function currencyOf(word: string): string | undefined {
  const upper = word.toUpperCase();
  const one = ONE[word.toLowerCase()];
  if (one) return one;
  if (CODES.has(upper)) return upper;
  return SHARED.test(word) ? word : undefined;
}

/** An amount with the currency before or behind it: "4.100,00 €" → "4.100,00" and "EUR". */
export function amountOf(text: string): { readonly amount: string; readonly currency?: string } {
  const plain = text.trim();
  const before = /^(\p{L}{0,5}(?:\p{L}\.?|\p{Sc}))\s*(?=[-+\u2212]?[.,]?\d)/u.exec(plain);
  const behind = /(?<=[\d.,\-\u2013\u2014]\s*)(\p{L}{0,5}(?:\p{L}\.?|\p{Sc}))$/u.exec(plain);
  const word = [before?.[1], behind?.[1]].find((one) => one !== undefined && currencyOf(one) !== undefined);
  if (word === undefined) return { amount: withoutDash(plain) };
  const amount = before?.[1] === word ? plain.slice(word.length) : plain.slice(0, -word.length);
  return { amount: withoutDash(amount.trim()), currency: currencyOf(word)! };
}

/** Tradesmen write a dash for no cents, behind the decimal mark: "4.100,-" → "4.100,00". */
function withoutDash(amount: string): string {
  return amount.replace(/(\d[.,])\s?[-\u2013\u2014]{1,2}$/, '$100');
}

/**
 * The currency that a heading names: "Preis (EUR)", "Unit price in €". A code counts in brackets, or among small
 * letters: in a heading of capitals every short word would look like one.
 */
export function currencyIn(heading: string): string | undefined {
  const inBrackets = [...heading.matchAll(/[([]([^)\]]*)[)\]]/g)].map((found) => found[1]!);
  const words = (text: string) => text.split(/[\s,;:/()[\]]+/).filter(Boolean);
  const bracketed = inBrackets.flatMap(words).find((word) => currencyOf(word) !== undefined);
  if (bracketed) return currencyOf(bracketed);
  const isMixed = /\p{Ll}/u.test(heading);
  const named = words(heading).find(
    (word) =>
      currencyOf(word) !== undefined && (/\p{Sc}/u.test(word) || (isMixed && /^[A-Z]{3}$/.test(word))),
  );
  return named && currencyOf(named);
}
