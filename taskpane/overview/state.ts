import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { KnownSheet, SheetReading } from '../../src/excel/host';
import { isListed, overviewPlan } from '../../src/sheets/overview';
import type { Store } from '../store';
import { SHEET_PAGE } from '../store/front';
import { lastLook } from '../store/lastlook';
import { perStore } from '../store/perstore';
import type { Trouble } from '../store/trouble';
import { brokenSealsOf } from './brokenseals';
import { keeperOf } from './keeper';
import { type Next, nextOf } from './next';
import { goneOf, rowsOn } from './rows';
import { lineOf, type OverviewLine } from './view';
import { listedSheet, WANTED } from './wanted';

/** The overview step: what is in the workbook, and the sheet that says so. */
export interface OverviewStep {
  /** Undefined until the workbook was read. */
  readonly lines: ReadonlySignal<readonly OverviewLine[] | undefined>;
  readonly trouble: ReadonlySignal<Trouble | undefined>;
  readonly overview: ReadonlySignal<KnownSheet | undefined>;
  /** Sheets that the overview sheet lists as gone. */
  readonly gone: ReadonlySignal<readonly string[]>;
  readonly report: ReadonlySignal<string>;
  /** What to do next; undefined where nothing is open. */
  readonly next: ReadonlySignal<Next | undefined>;
  /** Brings a sheet to the front, here as well. */
  goTo(sheet: string): Promise<void>;
  /** Shows the sheet that the next thing is about: it offers it there. */
  goOn(): Promise<void>;
  build(): Promise<void>;
  /** Takes sheets that are gone out of the overview sheet. */
  forget(): Promise<void>;
}

export const overviewOf = perStore(createOverview);

function createOverview(store: Store): OverviewStep {
  const { host, workbook, troubles, page, front, makeId } = store;
  const keeper = keeperOf(store);
  const readings = signal<readonly SheetReading[] | undefined>(undefined);
  const gone = signal<readonly string[]>([]);
  const trouble = signal<Trouble | undefined>(undefined);
  const report = signal('');
  const overview = computed(() => workbook.survey.value?.sheets.find(({ kind }) => kind === 'overview'));
  const look = lastLook(
    async (sheets: readonly KnownSheet[]) => {
      const sheet = sheets.find(({ kind }) => kind === 'overview')?.sheet;
      const found = await host.readSome(WANTED);
      return { found, listed: sheet === undefined ? undefined : await host.read(sheet) };
    },
    {
      what: 'Reading the workbook',
      trouble,
      isKept: true,
      take: (look) => {
        readings.value = look?.found;
        gone.value = look?.listed ? goneOf(rowsOn(look.listed), look.found).map((one) => one.sheet) : [];
      },
    },
  );
  effect(() => {
    const survey = workbook.survey.value;
    if (survey && (page.value === 'home' || front.isOf('overview')) && troubles.busy.value === '')
      void look(survey.sheets);
  });

  const broken = brokenSealsOf(store).sheets;
  const lines = computed(() =>
    readings.value?.map((reading) => lineOf(reading, broken.value.has(reading.sheet))),
  );
  const next = computed(() => lines.value && nextOf(lines.value));
  const open = async (sheet: string) => {
    await troubles.attempt('Going to the sheet', () => host.select(sheet, 'A1'));
    await workbook.look();
    store.open(SHEET_PAGE);
  };
  return {
    lines,
    next,
    trouble: computed(() => trouble.value ?? keeper.trouble.value),
    overview,
    gone,
    report,
    goTo: open,
    goOn: async () => {
      const thing = next.peek();
      if (thing) await open(thing.sheet);
    },
    build: async () => {
      report.value = '';
      const there = overview.peek();
      const attempt = await troubles.attempt('Building the overview', async () => {
        if (there) {
          await keeper.renew(there.sheet);
          await host.select(there.sheet, 'A1');
          return there.sheet;
        }
        const found = (await host.readSome(WANTED)).filter(({ kind }) => isListed(kind));
        return (await host.build(overviewPlan({ sheets: found.map(listedSheet), gone: [] }, makeId()))).sheet;
      });
      if (attempt.ok)
        report.value = there
          ? `“${attempt.value}” is up to date.`
          : `Built the sheet “${attempt.value}”. It follows new, renamed and deleted sheets while this pane is open.`;
      await workbook.look();
    },
    forget: async () => {
      report.value = '';
      const sheet = overview.peek()?.sheet;
      if (sheet === undefined) return;
      const attempt = await troubles.attempt('Taking out what is gone', () => keeper.renew(sheet, true));
      if (attempt.ok) report.value = 'Sheets that are gone are no longer listed.';
      await workbook.look();
    },
  };
}
