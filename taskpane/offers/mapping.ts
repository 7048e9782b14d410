import type { OfferField } from './fields';

/** What each column of a file is; undefined: not used. */
export type Mapping = readonly (OfferField | undefined)[];

/**
 * Words in headings that tell what a column is, most particular first. Colour stands before white, since "colour
 * light output" also holds words of white; prices of sources before prices. English, and some words of
 * neighbours.
 */
const HEADINGS: readonly (readonly [OfferField, RegExp])[] = [
  [
    'sourcePrice',
    /(price|cost).*(source|lamp|laser|replacement)|(source|lamp|laser|replacement).*(price|cost)|lampenpreis/,
  ],
  ['sourceLife', /(source|lamp|laser).*(life|hours)|life|lebensdauer|^hours/],
  ['colour', /colou?r|farb|couleur/],
  ['white', /white|wei(ß|ss)|blanc|light output|brightness|lumens?|^lm$/],
  ['standard', /standard|norm|measured by|method/],
  ['currency', /currency|währung|waehrung|devise/],
  ['price', /price|cost|preis|prix/],
  ['power', /power|watt|consumption|leistung|puissance|^w$/],
  ['warranty', /warrant|guarantee|garantie/],
  ['bidder', /bidder|supplier|vendor|company|offer|name|bieter|anbieter|fournisseur/],
];

/** Guesses from the headings. Each field is given once, to the first column that looks like it. */
export function guess(headings: readonly string[]): Mapping {
  const given = new Set<OfferField>();
  return headings.map((heading) => {
    const text = heading.replace(/\s+/g, ' ').trim().toLowerCase();
    const field = HEADINGS.find(([, words]) => words.test(text))?.[0];
    if (field === undefined || given.has(field)) return undefined;
    given.add(field);
    return field;
  });
}

/** A column says what it is; another that said the same is no longer used. */
export function assign(mapping: Mapping, column: number, field: OfferField | undefined): Mapping {
  return mapping.map((now, i) => (i === column ? field : now === field ? undefined : now));
}
