import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import { type Assessment, assess } from '../../src/procurement/offers/assess';
import type { Offer } from '../../src/procurement/offers/offer';
import { roundUp } from '../../src/procurement/wording/format';
import { askedLinks, withLinks } from '../../src/sheets/linkfigures';
import { offersPlan } from '../../src/sheets/offers';
import { buildSheet } from '../form/build';
import { createForm, type Form, type Restore } from '../form/form';
import { createLines, type Lines } from '../form/lines';
import { needView } from '../need/view';
import { STEP } from '../need/wording';
import { addressesOf } from '../run/cell';
import type { Store } from '../store';
import { type Followed, follow } from '../store/follow';
import { perStore } from '../store/perstore';
import { goesWith, refused, type Said } from '../store/said';
import { ASKED, type AskedField, understandAsked } from './askedfields';
import { exportOffers } from './exported';
import { OFFER_FIELDS, type OfferField, type OfferTexts } from './fields';
import { currenciesOf } from './figure';
import { createImporting, type Importing } from './importing';
import { isBlankOffer, offerOf } from './offer';
import { fromOffersSheet, type OffersView, offersView } from './view';

export interface OfferEntry {
  readonly form: Form<OfferField>;
  /** Once its fields are fit. */
  readonly offer?: Offer;
  /** Once the offer, the need and the plan of use are fit. */
  readonly assessment?: Assessment;
}

/** The offers step: what is asked for, the offers, import and export, the sheet. */
export interface OffersStep {
  readonly asked: Form<AskedField>;
  readonly offers: ReadonlySignal<readonly OfferEntry[]>;
  /** Below each other; offers come and go here. */
  readonly lines: Lines<OfferField>;
  readonly need: Followed;
  readonly followed: Followed;
  readonly view: ReadonlySignal<OffersView | undefined>;
  readonly importing: Importing;
  /** All offers as CSV; empty where there are none. */
  readonly exported: ReadonlySignal<string>;
  /** Where the figures asked for came from. */
  readonly askedFrom: ReadonlySignal<string>;
  /** What the last action did or could not do. */
  readonly report: ReadonlySignal<Said>;
  snapshot(): Restore;
  /** Takes the largest figures of the need sheet that is shown. */
  takeNeed(): void;
  /** Puts what stands on the shown offers sheet, or on another one, into the fields. */
  takeSheet(reading?: SheetReading): void;
  /** Writes the name of an offer into the shown sheet as the chosen one. */
  choose(bidder: string): Promise<void>;
  build(): Promise<void>;
}

export const MOST_OFFERS = 500;
/** Empty lines for offers that come later. */
const SPARE = 10;

/** The step's state; it outlives looking at another page. */
export const offersOf = perStore(createOffers);

function createOffers(store: Store): OffersStep {
  const { host, workbook, troubles, log, facts, makeId } = store;
  const lines = createLines(() => createForm(OFFER_FIELDS, { name: 'offers' }), MOST_OFFERS);
  const askedFrom = signal('');
  /** The need sheet whose figures stand in the fields unchanged. */
  const linkedNeed = signal<string | undefined>(undefined);
  const asked = createForm(ASKED, {
    name: 'offers',
    onType: (id) => {
      if (id !== 'white' && id !== 'colour') return;
      askedFrom.value = '';
      linkedNeed.value = undefined;
    },
  });
  const report = signal<Said>('');
  goesWith(report, () => [asked, ...lines.forms.value].map(({ texts }) => texts.value));
  const need = follow(store, 'need', 'offers');
  const followed = follow(store, 'offers', 'offers');
  const understoodAsked = computed(() => understandAsked(asked.texts.value, asked.reads.value));
  const offers = computed(() =>
    lines.forms.value.map((form): OfferEntry => {
      const offer = offerOf(form.texts.value, form.reads.value);
      const { asked: figures, use } = understoodAsked.value;
      const found = offer && figures && use && assess(offer, figures, use);
      return { form, ...(offer ? { offer } : {}), ...(found?.ok ? { assessment: found.value } : {}) };
    }),
  );
  const begunTexts = () =>
    lines.forms.value.map(({ texts }) => texts.value).filter((texts) => !isBlankOffer(texts));

  // The currency of the plan is that of the offers, where they name one and no other; it need not be typed again.
  let filledIn = '';
  effect(() => {
    const common = commonCurrency(begunTexts());
    if (common === '') return;
    const own = asked.texts.peek().currency.trim();
    if (own === '' || own === filledIn) asked.take({ currency: common });
    filledIn = common;
  });

  function takeNeed(): void {
    const view = need.reading.peek() && needView(need.reading.peek()!);
    if (view?.white === undefined || view.colour === undefined) {
      askedFrom.value =
        'The need sheet has no figures yet: describe its rooms there, or type the figures below.';
      return;
    }
    // The tender asks for round figures, so offers are held against the same.
    const [white, colour] = [roundUp(view.white, STEP), roundUp(view.colour, STEP)];
    asked.take({ white: String(white), colour: String(colour) });
    linkedNeed.value = view.sheet;
    askedFrom.value = `From “${view.sheet}”, the largest need, rounded up to ${STEP} lm. A sheet built from here is linked to it.`;
  }
  // A need that stands in the workbook is taken by itself, but never over something typed.
  const stop = effect(() => {
    const reading = need.reading.value;
    if (!reading || needView(reading).white === undefined) return;
    const { white, colour } = asked.texts.peek();
    if (white === '' && colour === '') takeNeed();
    queueMicrotask(() => stop());
  });

  function add(rows: readonly OfferTexts[]): { said: string; taken: number } {
    const kept = lines.forms.peek().filter(({ texts }) => !isBlankOffer(texts.peek()));
    const room = MOST_OFFERS - kept.length;
    const taken = rows.slice(0, room);
    if (taken.length > 0) lines.put([...kept.map(({ texts }) => texts.peek()), ...taken]);
    const words = `${taken.length} ${taken.length === 1 ? 'offer' : 'offers'} imported.`;
    const said =
      taken.length === rows.length
        ? words
        : `${words} ${rows.length - taken.length} found no room: the pane holds ${MOST_OFFERS}.`;
    return { said, taken: taken.length };
  }

  const importing = createImporting((rows) => {
    const added = add(rows);
    void log.note('imported', '', `${added.said} From a file or a pasted text, into the pane.`);
    return added;
  });

  return {
    asked,
    offers,
    lines,
    need,
    followed,
    view: computed(() => followed.reading.value && offersView(followed.reading.value)),
    importing,
    exported: computed(() => {
      const some = begunTexts();
      return some.length === 0 ? '' : exportOffers(some, facts.decimalComma);
    }),
    askedFrom,
    report,
    snapshot: () => {
      const restores = [lines.snapshot(), asked.snapshot()];
      const [from, link] = [askedFrom.peek(), linkedNeed.peek()];
      return () => {
        for (const restore of restores) restore();
        [askedFrom.value, linkedNeed.value] = [from, link];
        report.value = '';
      };
    },
    takeNeed,
    takeSheet: (reading = followed.reading.peek()) => {
      if (!reading) return;
      const taken = fromOffersSheet(reading);
      asked.take(taken.asked);
      askedFrom.value = '';
      linkedNeed.value = undefined;
      importing.unmark();
      lines.put(taken.offers);
      report.value = `Taken from “${reading.sheet}”. What is changed here goes into a new sheet.`;
    },
    choose: async (bidder) => {
      const sheet = followed.shown.peek();
      if (sheet === undefined) return;
      await troubles.attempt('Choosing the offer', () => host.write(sheet, 'ChosenOffer', [[bidder]]));
      await workbook.look();
    },
    build: async () => {
      asked.showAll();
      report.value = '';
      const { asked: figures, use } = understoodAsked.value;
      const some = offers.value.filter(({ form }) => !isBlankOffer(form.texts.value));
      for (const { form } of some) form.showAll();
      const given = some.flatMap(({ offer }) => offer ?? []);
      if (!figures || !use || given.length < some.length) {
        const what = !figures || !use ? 'what is asked for and the plan of use need' : 'some offers need';
        report.value = refused(`Nothing was built: ${what} another look.`);
        return;
      }
      const build = async () => {
        const plan = offersPlan({ asked: figures, use, offers: given, spare: SPARE }, makeId());
        const sheet = linkedNeed.peek();
        if (sheet === undefined) return plan;
        return withLinks(plan, askedLinks({ sheet, addresses: addressesOf(await host.read(sheet)) }));
      };
      const sheet = await buildSheet(store, 'offers sheet', build, () => {
        importing.settle();
        const left = importing.read.peek()?.rows.length ?? 0;
        return left === 0
          ? '.'
          : `. ${left === 1 ? 'One line of the text could not be read and stays' : `${left} lines of the text could not be read and stay`} in the form.`;
      });
      if (sheet) followed.pick(sheet);
    },
  };
}

function commonCurrency(offers: readonly OfferTexts[]): string {
  const named = new Set(offers.flatMap((texts) => currenciesOf(texts)));
  return named.size === 1 ? [...named][0]! : '';
}
