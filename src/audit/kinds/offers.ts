import { bad, chain, good, missing, type Outcome } from '../../photometry/outcome';
import { type Assessment, assess } from '../../procurement/offers/assess';
import type { Offer, UsePlan } from '../../procurement/offers/offer';
import type { CellName } from '../../sheets/names/all';
import { OFFERS_COLUMNS, OFFERS_VERSION, offersPlan } from '../../sheets/offers';
import type { Plan } from '../../sheets/plan';
import type { SheetView } from '../view';
import {
  cellNamed,
  keptPlans,
  type LineAt,
  linesOf,
  numberAt,
  placeInTable,
  tableArea,
  tableLines,
  textAt,
} from './cells';
import type { KindAudit, Origin, Recomputed, Unknown } from './kind';
import { resultCells } from './results';

const kept = keptPlans();
const TABLE = OFFERS_COLUMNS.flatMap(({ name }) => name ?? []);

function planOf(view: SheetView): Plan | Unknown {
  const spare = linesOf(view, TABLE);
  if (spare < 1) return { why: 'Its names no longer tell how many offers it has.' };
  const use = { years: 1, hoursPerYear: 1, tariff: 1, currency: '' };
  return kept(String(spare), () =>
    offersPlan({ asked: { white: 1, colour: 1 }, use, offers: [], spare }, 'expected'),
  );
}

function offerAt(view: SheetView, at: LineAt): Offer {
  const [number, text] = [(key: string) => numberAt(view, at(key)), (key: string) => textAt(view, at(key))];
  const stated = <K extends string>(key: K, value: number | undefined) =>
    (value === undefined ? {} : { [key]: value }) as { [key in K]?: number };
  return {
    bidder: text('bidder'),
    standard: text('standard'),
    currency: text('currency'),
    ...stated('white', number('white')),
    ...stated('colour', number('colour')),
    ...stated('price', number('price')),
    ...stated('power', number('power')),
    ...stated('sourceLife', number('life')),
    ...stated('sourcePrice', number('source')),
    ...stated('warranty', number('warranty')),
  };
}

interface Asked {
  readonly asked: { readonly white: number; readonly colour: number };
  readonly use: UsePlan;
}

function askedOf(view: SheetView, plan: Plan): Outcome<Asked> {
  const names = ['AskedWhite', 'AskedColour', 'Years', 'HoursPerYear', 'Tariff'] as const;
  const values = names.map((name) => numberAt(view, cellNamed(plan, name)));
  if (values.some((value) => value === undefined)) {
    return bad(missing('plan', 'A figure that all offers are held against is missing.'));
  }
  const [white, colour, years, hoursPerYear, tariff] = values as [number, number, number, number, number];
  const currency = textAt(view, cellNamed(plan, 'Currency'));
  return good({ asked: { white, colour }, use: { years, hoursPerYear, tariff, currency } });
}

const FIGURES: readonly (readonly [string, (assessment: Assessment) => number | undefined])[] = [
  ['cost', ({ lifeCost }) => lifeCost?.total],
  ['plain', ({ lifeCost }) => lifeCost?.total],
  ['perWhite', ({ pricePerLumen }) => pricePerLumen.white],
  ['perColour', ({ pricePerLumen }) => pricePerLumen.colour],
  ['hourWhite', ({ costPerLumenHour }) => costPerLumenHour.white],
  ['hourColour', ({ costPerLumenHour }) => costPerLumenHour.colour],
];

function recomputeLine(view: SheetView, at: LineAt, asked: Outcome<Asked>): [string, Recomputed][] {
  const offer = offerAt(view, at);
  if (offer.bidder === '') return ['state', 'stated', 'cost', 'plain'].map((key) => [at(key), good('')]);
  const found = chain(asked, (all) => assess(offer, all.asked, all.use));
  const state = chain(found, (assessment) => good(assessment.state));
  return [
    [at('state'), state],
    [at('stated'), state],
    ...FIGURES.map(([key, pick]): [string, Recomputed] => [
      at(key),
      chain(found, (assessment) => {
        const value = pick(assessment);
        return value === undefined ? bad(missing(key, 'A figure behind it is not stated.')) : good(value);
      }),
    ]),
    ...(['white', 'colour'] as const).map((light): [string, Recomputed] => [
      at(light === 'white' ? 'marginWhite' : 'marginColour'),
      chain(asked, (all) => {
        const lumens = offer[light];
        if (lumens === undefined) return bad(missing(light, 'It is not stated.'));
        return good(lumens / all.asked[light] - 1);
      }),
    ]),
  ];
}

/** What a bidder states, by the bid and, for light, by the standard it names. */
function origin(view: SheetView, plan: Plan, at: string): Origin | undefined {
  if (SET_FOR_ALL.some((name) => cellNamed(plan, name) === at)) {
    return { source: 'set on this sheet, for all offers alike' };
  }
  const place = placeInTable(plan, 'Bidders', OFFERS_COLUMNS, at);
  if (place?.column.role !== 'input') return undefined;
  const { line, column } = place;
  const bidder = textAt(view, line('bidder'));
  if (bidder === '') return undefined;
  const bid = `in the bid “${bidder}”`;
  if (textAt(view, at) === '') return { source: `not stated ${bid}` };
  const standard = textAt(view, line('standard')) || 'no measuring standard named';
  return { source: `stated ${bid}${LIGHT.has(column.key) ? `; ${standard}` : ''}` };
}

const SET_FOR_ALL: readonly CellName[] = [
  'AskedWhite',
  'AskedColour',
  'Years',
  'HoursPerYear',
  'Tariff',
  'Currency',
  'ChosenOffer',
];
const LIGHT: ReadonlySet<string> = new Set(['white', 'colour']);

export const OFFERS: KindAudit = {
  version: OFFERS_VERSION,
  plan: planOf,
  origin,
  lines: (plan) => tableArea(plan, 'Bidders', OFFERS_COLUMNS.length),
  results: (view, plan) => {
    const names = ['OfferPerColourHour', 'OfferQuestions'] as const;
    const blank = new Set(
      tableLines(plan, 'Bidders', OFFERS_COLUMNS)
        .filter((at) => textAt(view, at('bidder')) === '')
        .flatMap((at) => OFFERS_COLUMNS.map(({ key }) => at(key))),
    );
    return resultCells(view, plan, names).filter(({ at }) => !blank.has(at));
  },
  recompute: (view, plan) => {
    const asked = askedOf(view, plan);
    const lines = tableLines(plan, 'Bidders', OFFERS_COLUMNS);
    return new Map(lines.flatMap((at) => recomputeLine(view, at, asked)));
  },
};
