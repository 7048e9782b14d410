import type { CellName } from '../../sheets/names/all';
import { OFFERS_COLUMNS, OFFERS_VERSION, offersPlan } from '../../sheets/offers';
import type { Plan } from '../../sheets/plan';
import type { SheetView } from '../view';
import { cellNamed, keptPlans, linesOf, placeInTable, tableArea, tableLines, textAt } from './cells';
import type { KindAudit, Origin, Unknown } from './kind';
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
};
