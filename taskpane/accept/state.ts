import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import type { Outcome } from '../../src/photometry/outcome';
import { units } from '../../src/procurement/wording/format';
import { acceptancePlan } from '../../src/sheets/acceptance';
import { linkedCells } from '../../src/sheets/acceptance/links';
import type { DrawnLot } from '../../src/sheets/acceptance/setup';
import { figureLink } from '../../src/sheets/link';
import { withLinks } from '../../src/sheets/linkfigures';
import { usual } from '../../src/sheets/setup/fields';
import { buildSheet } from '../form/build';
import { objectionOf } from '../form/field';
import { createForm, type Form, faultOf, type Restore } from '../form/form';
import { retyped } from '../parse/quantity';
import { addressesOf, cellOf } from '../run/cell';
import { newRunOf } from '../run/newrun';
import { perCent } from '../setup/ask';
import type { Store } from '../store';
import { type Followed, follow } from '../store/follow';
import { perStore } from '../store/perstore';
import { goesWith, refused, type Said } from '../store/said';
import { settledSheet } from '../store/settled';
import { foundSeal } from '../trace/onpaper';
import { certify } from './certify';
import { LOT, type LotField, understandLot } from './form';
import { type LotView, lotView } from './lot';
import { copiedCells, takingFor, WANTED } from './taking';

/** The acceptance step: the lot, its draw, and results from runs. */
export interface Accept {
  readonly form: Form<LotField>;
  /** The drawn lot, or what speaks against it; undefined while a field wants another look. */
  readonly drawn: ReadonlySignal<Outcome<DrawnLot> | undefined>;
  /** The lot's sheet that is shown. */
  readonly followed: Followed;
  /** Where that lot stands. */
  readonly lot: ReadonlySignal<LotView | undefined>;
  readonly report: ReadonlySignal<Said>;
  /** What stands on a lot's sheet after its results were taken. */
  readonly taken: ReadonlySignal<readonly string[]>;
  snapshot(): Restore;
  /** Where the limits in the fields come from; empty where they were typed. */
  readonly limitsFrom: ReadonlySignal<string>;
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
  const { host, workbook, troubles, author, log, makeId, today } = store;
  const newRun = newRunOf(store);
  const followed = follow(store, 'acceptance', 'lot');
  const report = signal<Said>('');
  const taken = signal<readonly string[]>([]);
  const issuedBy = signal('');
  const certified = signal('');
  /** The offers sheet whose chosen offer gives the limits, as long as they stand unchanged. */
  const linked = signal<{ readonly offers: SheetReading; readonly part: number } | undefined>(undefined);
  const form = createForm(LOT, {
    name: 'accept',
    onType: (id) => {
      if (id === 'leastWhite' || id === 'leastColour') linked.value = undefined;
    },
  });
  goesWith(report, () => form.texts.value);
  const drawn = computed(() => understandLot(form.texts.value, today, form.reads.value));

  function limitLinks() {
    if (!linked.peek()) return {};
    const { offers, part } = linked.peek()!;
    const of = (ref: string) => `${part}*${ref}`;
    const { leastWhite, leastColour } = form.reads.peek();
    const source = { sheet: offers.sheet, addresses: addressesOf(offers) };
    return {
      ...(leastWhite.value === undefined ? {} : { LeastWhite: figureLink(source, 'ChosenWhite', { of }) }),
      ...(leastColour.value === undefined ? {} : { LeastColour: figureLink(source, 'ChosenColour', { of }) }),
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
    form,
    drawn,
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
      const [restore, link] = [form.snapshot(), linked.peek()];
      return () => {
        restore();
        linked.value = link;
        report.value = '';
      };
    },
    takeOffer: (offers) => {
      const part = newRun.form.setup.peek()?.rated.minimumFraction ?? usual('rated.minimumFraction') ?? 1;
      const least = (name: 'ChosenWhite' | 'ChosenColour') => {
        const stated = cellOf(offers, name);
        return typeof stated === 'number' ? retyped(Number((stated * part).toPrecision(10))) : '';
      };
      const [leastWhite, leastColour] = [least('ChosenWhite'), least('ChosenColour')];
      if (leastWhite === '' && leastColour === '') return;
      form.take({ leastWhite, leastColour });
      linked.value = { offers, part };
      newRun.takeRatedFrom(offers.sheet);
    },
    build: async () => {
      form.showAll();
      report.value = '';
      const lot = drawn.peek();
      if (!lot?.ok) {
        const why = objectionOf(lot) || faultOf(form);
        report.value = refused(`Nothing was built: ${why}`);
        return;
      }
      await buildSheet(
        store,
        'acceptance sheet',
        () => withLinks(acceptancePlan(lot.value, makeId()), limitLinks()),
        () => ' with the draw recorded.',
      );
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
      await buildSheet(store, 'certificate', async () => {
        await settledSheet(host, sheet);
        const seal = await foundSeal(host, sheet, author.moment().when);
        return certify(await host.read(sheet), issuedBy.value.trim(), makeId(), seal);
      });
    },
  };
}
