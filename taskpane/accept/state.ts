import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import { units } from '../../src/procurement/wording/format';
import { acceptancePlan } from '../../src/sheets/acceptance';
import { linkedCells } from '../../src/sheets/acceptance/links';
import { figureLink } from '../../src/sheets/link';
import { withLinks } from '../../src/sheets/linkfigures';
import { usual } from '../../src/sheets/setup/fields';
import { retyped } from '../parse/quantity';
import { cellOf } from '../run/cell';
import { newRunOf } from '../run/newrun';
import { perCent } from '../setup/ask';
import type { Store } from '../store';
import { type Followed, follow } from '../store/follow';
import { perStore } from '../store/perstore';
import { refused, type Said } from '../store/said';
import { settledSheet } from '../store/settled';
import { foundSeal } from '../trace/onpaper';
import { certify } from './certify';
import { type LotTexts, type LotUnderstood, START, understandLot } from './form';
import { type LotView, lotView } from './lot';
import { addressesOf, copiedCells, takingFor, WANTED } from './taking';

/** The acceptance step: the lot, its draw, and results from runs. */
export interface Accept {
  readonly texts: ReadonlySignal<LotTexts>;
  readonly understood: ReadonlySignal<LotUnderstood>;
  readonly isAllShown: ReadonlySignal<boolean>;
  /** The lot's sheet that is shown. */
  readonly followed: Followed;
  /** Where that lot stands. */
  readonly lot: ReadonlySignal<LotView | undefined>;
  readonly report: ReadonlySignal<Said>;
  /** What stands on a lot's sheet after its results were taken. */
  readonly taken: ReadonlySignal<readonly string[]>;
  /** How the form stands now; calling what comes back puts it so again. */
  snapshot(): () => void;
  /** Where the limits in the fields come from; empty where they were typed. */
  readonly limitsFrom: ReadonlySignal<string>;
  type(id: keyof LotTexts, text: string): void;
  /** Takes the limits from the offer chosen on an offers sheet; the sheet that is built stays linked to it. */
  takeOffer(offers: SheetReading): void;
  build(): Promise<void>;
  /** Links or copies the results of sheets with a serial of the shown lot into its lines. */
  takeResults(how: 'link' | 'copy'): Promise<void>;
  readonly issuedBy: ReadonlySignal<string>;
  /** What became of the certificate asked for last. */
  readonly certified: ReadonlySignal<string>;
  typeIssuedBy(text: string): void;
  /** Builds the certificate of a run. */
  certify(sheet: string): Promise<void>;
}

/** The step's state; it outlives looking at another page. */
export const acceptOf = perStore(createAccept);

function createAccept(store: Store): Accept {
  const { host, workbook, troubles, front, author, log, makeId, today } = store;
  const newRun = newRunOf(store);
  const followed = follow(store, 'acceptance', 'lot');
  const texts = signal(START);
  const isAllShown = signal(false);
  const report = signal<Said>('');
  const taken = signal<readonly string[]>([]);
  const issuedBy = signal('');
  const certified = signal('');
  const understood = computed(() => understandLot(texts.value, today));
  /** The offers sheet whose chosen offer gives the limits, as long as they stand unchanged. */
  const linked = signal<{ readonly offers: SheetReading; readonly part: number } | undefined>(undefined);

  function limitLinks() {
    if (!linked.peek()) return {};
    const { offers, part } = linked.peek()!;
    const of = (ref: string) => `${part}*${ref}`;
    const { leastWhite, leastColour } = understood.peek().drawn ?? {};
    const source = { sheet: offers.sheet, addresses: addressesOf(offers) };
    return {
      ...(leastWhite === undefined ? {} : { LeastWhite: figureLink(source, 'ChosenWhite', { of }) }),
      ...(leastColour === undefined ? {} : { LeastColour: figureLink(source, 'ChosenColour', { of }) }),
    };
  }

  async function take(sheet: string, how: 'link' | 'copy'): Promise<string[]> {
    const lot = await host.read(sheet);
    const sources = await host.readSome(WANTED);
    const cells = (await host.book({ sheets: [sheet] })).sheets[0]?.cells ?? {};
    const { lines, remarks } = takingFor(lot, cells, sources);
    if (lines.length > 0 && how === 'link')
      await host.restore(sheet, {
        cells: linkedCells(addressesOf(lot), new Map(lines.map(({ line, link }) => [line, link]))),
      });
    const copied = lines.filter(({ figures }) => figures.UnitWhite !== null);
    if (copied.length > 0 && how === 'copy') await host.writeCells(lot, copiedCells(lot, copied));
    const done = how === 'link' ? 'linked into' : 'copied into';
    return [`${units((how === 'link' ? lines : copied).length)} ${done} “${sheet}”.`, ...remarks];
  }

  return {
    texts,
    understood,
    isAllShown,
    followed,
    lot: computed(() => followed.reading.value && lotView(followed.reading.value)),
    report,
    taken,
    limitsFrom: computed(() =>
      linked.value
        ? `${perCent(linked.value.part)} % of what “${String(cellOf(linked.value.offers, 'ChosenOffer'))}” states on “${linked.value.offers.sheet}”; the sheet follows it.`
        : '',
    ),
    snapshot: () => {
      const [before, link] = [texts.peek(), linked.peek()];
      return () => {
        texts.value = before;
        linked.value = link;
        isAllShown.value = false;
        report.value = '';
      };
    },
    type: (id, text) => {
      texts.value = { ...texts.value, [id]: text };
      if (id === 'leastWhite' || id === 'leastColour') linked.value = undefined;
    },
    takeOffer: (offers) => {
      const part = newRun.form.setup.peek()?.rated.minimumFraction ?? usual('rated.minimumFraction') ?? 1;
      const least = (name: 'ChosenWhite' | 'ChosenColour') => {
        const stated = cellOf(offers, name);
        return typeof stated === 'number' ? retyped(Number((stated * part).toPrecision(10))) : '';
      };
      const [leastWhite, leastColour] = [least('ChosenWhite'), least('ChosenColour')];
      if (leastWhite === '' && leastColour === '') return;
      texts.value = { ...texts.value, leastWhite, leastColour };
      linked.value = { offers, part };
      newRun.takeRatedFrom(offers.sheet);
    },
    build: async () => {
      isAllShown.value = true;
      report.value = '';
      const { drawn, objection } = understood.value;
      if (!drawn) {
        report.value = refused(`Nothing was built: ${objection || 'some fields need another look.'}`);
        return;
      }
      const attempt = await troubles.attempt('Building the acceptance sheet', () =>
        host.build(withLinks(acceptancePlan(drawn, makeId()), limitLinks())),
      );
      await workbook.look();
      if (attempt.ok)
        front.arrive(`Built the sheet \u201c${attempt.value.sheet}\u201d with the draw recorded.`);
    },
    takeResults: async (how) => {
      taken.value = [];
      const sheet = followed.shown.peek();
      if (sheet === undefined) return;
      if (workbook.survey.peek()?.sheets.some((one) => one.sheet === sheet && one.isSealed)) {
        taken.value = [
          `“${sheet}” is sealed and stays as it is. Its seal is taken off, on the record, under Seal.`,
        ];
        return;
      }
      const attempt = await troubles.attempt(
        how === 'link' ? 'Linking the results' : 'Copying the results',
        () => take(sheet, how),
      );
      if (attempt.ok) {
        taken.value = attempt.value;
        void log.note('took over', sheet, attempt.value[0]);
      }
      await workbook.look();
    },
    issuedBy,
    certified,
    typeIssuedBy: (text) => {
      issuedBy.value = text.slice(0, 120);
    },
    certify: async (sheet) => {
      certified.value = '';
      const attempt = await troubles.attempt('Building the certificate', async () => {
        await settledSheet(host, sheet);
        return host.build(
          certify(
            await host.read(sheet),
            issuedBy.value.trim(),
            makeId(),
            await foundSeal(host, sheet, author.moment().when),
          ),
        );
      });
      await workbook.look();
      if (attempt.ok) front.arrive(`Built the sheet \u201c${attempt.value.sheet}\u201d.`);
    },
  };
}
