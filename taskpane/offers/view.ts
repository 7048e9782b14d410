import type { SheetReading } from '../../src/excel/host';
import { whole } from '../../src/procurement/wording/format';
import type { CellValue } from '../../src/sheets/book';
import type { CellName } from '../../src/sheets/names/all';
import { retyped } from '../parse/quantity';
import { cellOf, columnOf } from '../run/cell';
import type { AskedField, AskedTexts } from './askedfields';
import { EMPTY_OFFER, OFFER_IDS, type OfferField, type OfferTexts } from './fields';

/** Names of the sheet behind the fields of an offer, and behind what is asked for. */
const COLUMNS: Readonly<Record<OfferField, CellName>> = {
  bidder: 'Bidders',
  white: 'OfferWhite',
  colour: 'OfferColour',
  standard: 'OfferStandard',
  price: 'OfferPrice',
  currency: 'OfferCurrency',
  power: 'OfferPower',
  sourceLife: 'OfferSourceLife',
  sourcePrice: 'OfferSourcePrice',
  warranty: 'OfferWarranty',
};
const ASKED: Readonly<Record<AskedField, CellName>> = {
  white: 'AskedWhite',
  colour: 'AskedColour',
  years: 'Years',
  hoursPerYear: 'HoursPerYear',
  tariff: 'Tariff',
  currency: 'Currency',
};

/** One offer as the sheet judges it. */
interface OfferLine {
  readonly bidder: string;
  /** `meets`, `short` or `ask`; else what the sheet shows instead. */
  readonly state: string;
  /** Cost over the planned years with its currency, or why there is none. */
  readonly cost: string;
  readonly questions: readonly string[];
}

export interface OffersView {
  readonly sheet: string;
  readonly about: string;
  readonly offers: readonly OfferLine[];
  /** Name of the chosen offer; undefined on a sheet of an older version, which has no place for one. */
  readonly chosen: string | undefined;
  readonly differing: number;
}

/** Reading → card. */
export function offersView(reading: SheetReading): OffersView {
  const [states, costs, questions] = (['OfferState', 'OfferCost', 'OfferQuestions'] as const).map((name) =>
    columnOf(reading, name),
  );
  const currency = text(cellOf(reading, 'Currency'));
  const offers = columnOf(reading, 'Bidders').flatMap((bidder, i): OfferLine[] =>
    text(bidder) === ''
      ? []
      : [
          {
            bidder: text(bidder),
            state: text(states?.[i]) || 'not computed yet',
            cost: money(costs?.[i], currency),
            questions: text(questions?.[i])
              .split(';')
              .map((question) => question.trim())
              .filter(Boolean),
          },
        ],
  );
  return {
    sheet: reading.sheet,
    about: `${text(cellOf(reading, 'AskedWhite'))} lm white and ${text(cellOf(reading, 'AskedColour'))} lm colour asked for`,
    offers,
    chosen: reading.values.ChosenOffer && text(cellOf(reading, 'ChosenOffer')),
    differing: columnOf(reading, 'Agreement').filter((one) => one === 'differ').length,
  };
}

/** What stands on an offers sheet, as texts for the fields. */
export function fromOffersSheet(reading: SheetReading): {
  readonly asked: AskedTexts;
  readonly offers: readonly OfferTexts[];
} {
  const asked = Object.fromEntries(
    Object.entries(ASKED).map(([id, name]) => [id, text(cellOf(reading, name))]),
  ) as unknown as AskedTexts;
  const columns = OFFER_IDS.map((id) => [id, columnOf(reading, COLUMNS[id])] as const);
  const count = Math.max(...columns.map(([, cells]) => cells.length));
  const offers = Array.from({ length: count }, (_, i) => ({
    ...EMPTY_OFFER,
    ...Object.fromEntries(columns.map(([id, cells]) => [id, text(cells[i])])),
  }));
  return { asked, offers: offers.filter((one) => Object.values(one).some((cell) => cell !== '')) };
}

/** A cell as a person would type it. */
function text(value: CellValue | undefined): string {
  if (typeof value === 'number') return retyped(value);
  if (typeof value === 'object' && value !== null) return value.error;
  return value === undefined || value === null ? '' : String(value).trim();
}

function money(cost: CellValue | undefined, currency: string): string {
  return typeof cost === 'number' ? `${whole(cost)} ${currency}`.trim() : text(cost);
}
