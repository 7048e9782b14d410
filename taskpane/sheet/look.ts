import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { CellsByName, KnownSheet } from '../../src/excel/host';
import type { CellName } from '../../src/sheets/names/all';
import { isListed } from '../../src/sheets/overview';
import { brokenSealsOf } from '../overview/brokenseals';
import { lineOf, type OverviewLine } from '../overview/view';
import { toldBy } from '../overview/wanted';
import { SHEET_PAGE } from '../store/front';
import { lastLook } from '../store/lastlook';
import { perStore } from '../store/perstore';
import type { Trouble } from '../store/trouble';
import { type Facts, type NextThing, nextOn } from './next';
import { lotLinkedTo, runWithSerial } from './unitrun';

/** The sheet that the pane shows, told in a few lines, and what to do next with it. */
export interface SheetLook {
  readonly line: ReadonlySignal<OverviewLine | undefined>;
  readonly next: ReadonlySignal<NextThing | undefined>;
  readonly trouble: ReadonlySignal<Trouble | undefined>;
}

type Found = KnownSheet & {
  readonly values: CellsByName;
  /** Of a lot: the run sheet of its first unit that does not conform. */
  readonly failingRun?: string | undefined;
  /** Of a batch: the lot that its results are linked into. */
  readonly linkedLot?: string | undefined;
};

export const lookOf = perStore((store): SheetLook => {
  const { host, workbook, front, page } = store;
  const found = signal<Found | undefined>(undefined);
  const runOf = async (serial: string): Promise<string | undefined> => {
    if (serial === '' || workbook.runs.peek().length === 0) return undefined;
    return runWithSerial(await host.readSome({ run: ['SerialNumber'] }), serial);
  };
  const lotOf = async ({ sheet, kind }: KnownSheet): Promise<string | undefined> => {
    if (kind !== 'batch' || !workbook.survey.peek()?.sheets.some((one) => one.kind === 'acceptance'))
      return undefined;
    const read = await host.readSome({ acceptance: ['Serials', 'UnitSource'], batch: ['Serials'] });
    return lotLinkedTo(sheet, read);
  };
  const trouble = signal<Trouble | undefined>(undefined);
  const look = lastLook(
    async (known: KnownSheet): Promise<Found> => {
      const values = await host.readNamed(known.sheet, toldBy(known.kind));
      return {
        ...known,
        values,
        failingRun: await runOf(firstOf(values, 'Failures')),
        linkedLot: await lotOf(known),
      };
    },
    {
      what: 'Reading the sheet',
      trouble,
      isKept: true,
      take: (reading) => {
        found.value = reading;
      },
    },
  );
  effect(() => {
    const known = front.sheet.value;
    // A run is read whole already; every look at the workbook is one at this sheet as well.
    if (!workbook.survey.value || page.value !== SHEET_PAGE || !known || known.kind === 'run') return;
    if (isListed(known.kind)) void look(known);
  });
  const shown = computed((): Found | undefined => {
    const known = front.sheet.value;
    if (!known) return undefined;
    const reading = known.kind === 'run' ? workbook.reading.value : found.value;
    return reading && reading.sheet === known.sheet && reading.id === known.id
      ? { ...reading, ...known }
      : undefined;
  });
  const broken = brokenSealsOf(store).sheets;
  const line = computed(() => shown.value && lineOf(shown.value, broken.value.has(shown.value.sheet)));
  const facts = computed((): Facts => {
    const values = shown.value?.values ?? {};
    return {
      sheets: workbook.survey.value?.sheets ?? [],
      isSealed: front.sheet.value?.isSealed === true,
      chosen: firstOf(values, 'ChosenOffer'),
      failing: firstOf(values, 'Failures'),
      failingRun: shown.value?.failingRun,
      linkedLot: shown.value?.linkedLot,
    };
  });
  return {
    line,
    trouble,
    next: computed(
      () => line.value && front.sheet.value && nextOn(front.sheet.value.kind, line.value, facts.value),
    ),
  };
});

function firstOf(values: CellsByName, name: CellName): string {
  return String(values[name]?.values[0]?.[0] ?? '');
}
