import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import { type Assessment, assess } from '../../src/procurement/offers/assess';
import { roundUp } from '../../src/procurement/wording/format';
import { askedLinks, withLinks } from '../../src/sheets/linkfigures';
import { offersPlan } from '../../src/sheets/offers';
import { needView } from '../need/view';
import { STEP } from '../need/wording';
import type { DecimalMark } from '../parse/number';
import type { Store } from '../store';
import { type Followed, follow } from '../store/follow';
import { perStore } from '../store/perstore';
import { refused, type Said } from '../store/said';
import {
  type AskedField,
  type AskedMarks,
  type AskedNumber,
  type AskedTexts,
  START_ASKED,
  type UnderstoodAsked,
  understandAsked,
} from './asked';
import { exportOffers } from './exported';
import { EMPTY_OFFER, type OfferField, type OfferNumber, type OfferTexts } from './fields';
import { createImporting, type Importing } from './importing';
import { isBlankOffer, type OfferMarks, type UnderstoodOffer, understandOffer } from './offer';
import { fromOffersSheet, type OffersView, offersView } from './view';

export interface OfferEntry {
  /** Tells lines apart while lines above them go. */
  readonly key: number;
  readonly texts: OfferTexts;
  readonly marks: OfferMarks;
  readonly understood: UnderstoodOffer;
  /** Once the offer, the need and the plan of use are fit. */
  readonly assessment?: Assessment;
}

/** The offers step: what is asked for, the offers, import and export, the sheet. */
export interface OffersStep {
  readonly asked: ReadonlySignal<AskedTexts>;
  readonly understoodAsked: ReadonlySignal<UnderstoodAsked>;
  readonly offers: ReadonlySignal<readonly OfferEntry[]>;
  readonly isAllShown: ReadonlySignal<boolean>;
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
  /** How the form stands now; calling what comes back puts it so again. */
  snapshot(): () => void;
  typeAsked(id: AskedField, text: string): void;
  decideAsked(id: AskedNumber, mark: DecimalMark): void;
  /** Takes the largest figures of the need sheet that is shown. */
  takeNeed(): void;
  type(key: number, id: OfferField, text: string): void;
  decide(key: number, id: OfferNumber, mark: DecimalMark): void;
  add(): void;
  drop(key: number): void;
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
  const { host, workbook, troubles, front, log, makeId, facts } = store;
  let next = 1;
  const line = (texts: OfferTexts) => ({ key: next++, texts, marks: {} as OfferMarks });
  const lines = signal([line(EMPTY_OFFER)]);
  const typedAsked = signal(START_ASKED);
  const askedMarks = signal<AskedMarks>({});
  const isAllShown = signal(false);
  const askedFrom = signal('');
  /** The need sheet whose figures stand in the fields unchanged. */
  const linkedNeed = signal<string | undefined>(undefined);
  const report = signal<Said>('');
  const need = follow(store, 'need', 'offers');
  const followed = follow(store, 'offers', 'offers');
  const understoodLines = computed(() =>
    lines.value.map((one) => ({ ...one, understood: understandOffer(one.texts, one.marks) })),
  );
  const asked = computed((): AskedTexts => {
    const own = typedAsked.value;
    return own.currency.trim() === '' ? { ...own, currency: commonCurrency(understoodLines.value) } : own;
  });
  const understoodAsked = computed(() => understandAsked(asked.value, askedMarks.value));
  const offers = computed(() =>
    understoodLines.value.map((one): OfferEntry => {
      const { understood } = one;
      const { asked: figures, use } = understoodAsked.value;
      const found = understood.offer && figures && use && assess(understood.offer, figures, use);
      return { ...one, ...(found?.ok ? { assessment: found.value } : {}) };
    }),
  );
  const begun = () => lines.peek().filter(({ texts }) => !isBlankOffer(texts));
  const change = (key: number, to: (one: (typeof lines.value)[number]) => (typeof lines.value)[number]) => {
    lines.value = lines.value.map((one) => (one.key === key ? to(one) : one));
  };

  function takeNeed(): void {
    const view = need.reading.peek() && needView(need.reading.peek()!);
    if (view?.white === undefined || view.colour === undefined) {
      askedFrom.value = 'The need sheet has no figures yet.';
      return;
    }
    // The tender asks for round figures, so offers are held against the same.
    const [white, colour] = [roundUp(view.white, STEP), roundUp(view.colour, STEP)];
    typedAsked.value = { ...typedAsked.peek(), white: String(white), colour: String(colour) };
    askedMarks.value = { ...askedMarks.peek(), white: undefined, colour: undefined };
    linkedNeed.value = view.sheet;
    askedFrom.value = `From “${view.sheet}”, the largest need, rounded up to ${STEP} lm. A sheet built from here is linked to it.`;
  }
  // A need that stands in the workbook is taken by itself, but never over something typed.
  const stop = effect(() => {
    const reading = need.reading.value;
    if (!reading || needView(reading).white === undefined) return;
    const { white, colour } = typedAsked.peek();
    if (white === '' && colour === '') takeNeed();
    queueMicrotask(() => stop());
  });

  function add(rows: readonly OfferTexts[]): { said: string; taken: number } {
    const kept = begun();
    const room = MOST_OFFERS - kept.length;
    const taken = rows.slice(0, room);
    if (taken.length > 0) lines.value = [...kept, ...taken.map(line)];
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
    understoodAsked,
    offers,
    isAllShown,
    need,
    followed,
    view: computed(() => followed.reading.value && offersView(followed.reading.value)),
    importing,
    exported: computed(() => {
      const some = lines.value.filter(({ texts }) => !isBlankOffer(texts));
      return some.length === 0 ? '' : exportOffers(some, facts.decimalComma);
    }),
    askedFrom,
    report,
    snapshot: () => {
      const before = [
        lines.peek(),
        typedAsked.peek(),
        askedMarks.peek(),
        askedFrom.peek(),
        linkedNeed.peek(),
      ] as const;
      return () => {
        [lines.value, typedAsked.value, askedMarks.value, askedFrom.value, linkedNeed.value] = before;
        isAllShown.value = false;
        report.value = '';
      };
    },
    typeAsked: (id, text) => {
      typedAsked.value = { ...typedAsked.value, [id]: text };
      askedMarks.value = { ...askedMarks.value, [id]: undefined };
      if (id !== 'white' && id !== 'colour') return;
      askedFrom.value = '';
      linkedNeed.value = undefined;
    },
    decideAsked: (id, mark) => {
      askedMarks.value = { ...askedMarks.value, [id]: mark };
    },
    takeNeed,
    type: (key, id, text) =>
      change(key, (one) => ({
        ...one,
        texts: { ...one.texts, [id]: text },
        marks: { ...one.marks, [id]: undefined },
      })),
    decide: (key, id, mark) => change(key, (one) => ({ ...one, marks: { ...one.marks, [id]: mark } })),
    add: () => {
      if (lines.value.length < MOST_OFFERS) lines.value = [...lines.value, line(EMPTY_OFFER)];
    },
    drop: (key) => {
      const kept = lines.value.filter((one) => one.key !== key);
      lines.value = kept.length > 0 ? kept : [line(EMPTY_OFFER)];
    },
    takeSheet: (reading = followed.reading.peek()) => {
      if (!reading) return;
      const taken = fromOffersSheet(reading);
      typedAsked.value = taken.asked;
      askedMarks.value = {};
      askedFrom.value = '';
      linkedNeed.value = undefined;
      importing.unmark();
      lines.value = (taken.offers.length > 0 ? taken.offers : [EMPTY_OFFER]).map(line);
      report.value = `Taken from “${reading.sheet}”. What is changed here goes into a new sheet.`;
    },
    choose: async (bidder) => {
      const sheet = followed.shown.peek();
      if (sheet === undefined) return;
      await troubles.attempt('Choosing the offer', () => host.write(sheet, 'ChosenOffer', [[bidder]]));
      await workbook.look();
    },
    build: async () => {
      isAllShown.value = true;
      report.value = '';
      const { asked: figures, use } = understoodAsked.value;
      const some = offers.value.filter(({ texts }) => !isBlankOffer(texts));
      const unfit = some.filter(({ understood }) => !understood.offer).length;
      if (!figures || !use || unfit > 0) {
        const what = !figures || !use ? 'what is asked for and the plan of use need' : 'some offers need';
        report.value = refused(`Nothing was built: ${what} another look.`);
        return;
      }
      const setup = { asked: figures, use, offers: some.flatMap(({ understood }) => understood.offer ?? []) };
      const attempt = await troubles.attempt('Building the offers sheet', async () => {
        const plan = offersPlan({ ...setup, spare: SPARE }, makeId());
        const sheet = linkedNeed.peek();
        if (sheet === undefined) return host.build(plan);
        const { values } = await host.read(sheet);
        const addresses = Object.fromEntries(
          Object.entries(values).map(([name, { address }]) => [name, address]),
        );
        return host.build(withLinks(plan, askedLinks({ sheet, addresses })));
      });
      if (!attempt.ok) return;
      followed.pick(attempt.value.sheet);
      importing.settle();
      const left = importing.read.peek()?.rows.length ?? 0;
      const leftWords =
        left === 0
          ? ''
          : ` ${left === 1 ? 'One line of the text could not be read and stays' : `${left} lines of the text could not be read and stay`} in the form.`;
      await workbook.look();
      front.arrive(`Built the sheet “${attempt.value.sheet}”.${leftWords}`);
    },
  };
}

/** The currency of the plan is that of the offers, where they name one and no other; it need not be typed again. */
function commonCurrency(
  lines: readonly { readonly texts: OfferTexts; readonly understood: UnderstoodOffer }[],
): string {
  const named = new Set(
    lines
      .map(({ texts, understood }) => (understood.offer?.currency ?? texts.currency).trim())
      .filter(Boolean),
  );
  return named.size === 1 ? [...named][0]! : '';
}
