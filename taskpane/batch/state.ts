import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { type Course, HostError, type KnownSheet } from '../../src/excel/host';
import { countOf, hasColour } from '../../src/procurement/batch/columns';
import type { CellValue } from '../../src/sheets/book';
import type { DecimalMark } from '../parse/number';
import { retyped } from '../parse/quantity';
import { cellOf, resultOf } from '../run/cell';
import type { Store } from '../store';
import { lastLook, sheetsOf } from '../store/lastlook';
import { perStore } from '../store/perstore';
import type { Trouble } from '../store/trouble';
import {
  type BatchMarks,
  type BatchNumber,
  type BatchTexts,
  START,
  type UnderstoodBatch,
  understandBatch,
} from './form';
import { createLogging, type Logging } from './logging';
import type { LogRow } from './logrow';
import { keyOf } from './serialkey';
import { type BatchView, batchView, serialsOn, type UnitLine, VIEW_NAMES } from './view';

/** The batch: a new one, the one that is shown, a meter's log into it, and its units one by one. */
export interface BatchStep {
  readonly isOpen: ReadonlySignal<boolean>;
  readonly texts: ReadonlySignal<BatchTexts>;
  readonly understood: ReadonlySignal<UnderstoodBatch>;
  /** What is merely still missing is said only after an attempt to build. */
  readonly isAllShown: ReadonlySignal<boolean>;
  /** How far a long action is, from 0 to 1; undefined while there is none. */
  readonly progress: ReadonlySignal<number | undefined>;
  /** What the last attempt to build came to. */
  readonly report: ReadonlySignal<string>;
  readonly sheets: ReadonlySignal<readonly KnownSheet[]>;
  readonly view: ReadonlySignal<BatchView | undefined>;
  readonly trouble: ReadonlySignal<Trouble | undefined>;
  readonly logging: Logging;
  /** The text a unit is looked for by, and the units it fits. */
  readonly wanted: ReadonlySignal<string>;
  readonly found: ReadonlySignal<readonly UnitLine[]>;
  /** The unit that is looked at. */
  readonly unit: ReadonlySignal<UnitLine | undefined>;
  /** Run sheets that the unit's readings can be taken from; those with its serial number come first. */
  readonly runs: ReadonlySignal<readonly string[]>;
  readonly chosenRun: ReadonlySignal<string>;
  /** What the last action on a unit did or could not do. */
  readonly unitReport: ReadonlySignal<{ readonly text: string; readonly isBad: boolean }>;
  fold(isOpen: boolean): void;
  type(part: Partial<BatchTexts>): void;
  decide(id: BatchNumber, mark: DecimalMark): void;
  /** Fills in the reference unit from the run that is shown. */
  takeReference(): void;
  build(): Promise<boolean>;
  /** Stops a long action between its parts. */
  stop(): void;
  pick(sheet: string): void;
  search(text: string): void;
  lookAt(line: number | undefined): void;
  goTo(cell: string): Promise<void>;
  /** Enters the function of the batch again: the cure for #NAME? left from before the add-in loaded. */
  refresh(): Promise<void>;
  chooseRun(sheet: string): void;
  openRun(): Promise<void>;
  takeRun(): Promise<void>;
}

/** Units offered at once while somebody types; more are narrowed down by typing on. */
const OFFERED = 8;
const REMARK_MAX = 500;
/** Names whose first cell holds a function of ours. */
const FUNCTION_NAMES = [
  'FunctionTable',
  ...['White', 'Colour'].flatMap((id) => [`${id}SharedU`, `${id}Dof`, `${id}K`]),
];

/** The state outlives looking at another page. */
export const batchOf = perStore(createBatch);

function createBatch(store: Store): BatchStep {
  const { host, workbook, troubles, makeId, newRun, page, log, today } = store;
  const isOpen = signal(false);
  const texts = signal(START);
  const marks = signal<BatchMarks>({});
  const isAllShown = signal(false);
  const progress = signal<number | undefined>(undefined);
  const report = signal('');
  const picked = signal<string | undefined>(undefined);
  const view = signal<BatchView | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  const wanted = signal('');
  const line = signal<number | undefined>(undefined);
  const run = signal('');
  const unitReport = signal({ text: '', isBad: false });
  let stopper: AbortController | undefined;

  const understood = computed(() => understandBatch(texts.value, marks.value, newRun.form.setup.value));
  const { sheets, shown } = sheetsOf(workbook.survey, 'batch', picked);
  const unit = computed(() => view.value?.units.find((one) => one.line === line.value));
  const found = computed(() => {
    const key = keyOf(wanted.value).toLowerCase();
    if (key === '' || !view.value) return [];
    const fits = view.value.units.filter(({ serial, place }) =>
      `${serial} ${place}`.toLowerCase().includes(key),
    );
    const exact = fits.filter(({ serial }) => serial.toLowerCase() === key);
    return (exact.length > 0 ? exact : fits).slice(0, OFFERED);
  });
  const runs = computed(() => workbook.runs.value.map(({ sheet }) => sheet));
  const chosenRun = computed(() => {
    if (runs.value.includes(run.value)) return run.value;
    const serial = unit.value?.serial ?? '';
    return runs.value.find((sheet) => serial !== '' && sheet.includes(serial)) ?? runs.value.at(-1) ?? '';
  });

  const look = lastLook(
    async (sheet: string | undefined) =>
      sheet === undefined ? undefined : batchView(sheet, await host.readNamed(sheet, VIEW_NAMES)),
    {
      what: 'Reading the batch',
      trouble,
      take: (found) => {
        view.value = found;
      },
    },
  );
  effect(() => {
    // Every look at the workbook makes a new survey. A long batch is read only while somebody looks at it.
    if (workbook.survey.value && page.value === 'measure' && isOpen.value) void look(shown.value);
  });

  /** Something long: with progress, and a way to stop it, which is no trouble. */
  async function longAction<T>(
    doing: string,
    action: (course: Course) => Promise<T>,
  ): Promise<{ ok: true; value: T } | { ok: false; stopped?: string }> {
    let stopped: string | undefined;
    const attempt = await troubles.attempt(doing, async () => {
      stopper = new AbortController();
      progress.value = 0;
      try {
        return await action({
          progress: (done) => {
            progress.value = done;
          },
          signal: stopper.signal,
        });
      } catch (error) {
        if (!(error instanceof HostError) || error.trouble !== 'stopped') throw error;
        stopped = `${error.message} ${error.remedy}`;
        return undefined;
      } finally {
        progress.value = undefined;
        stopper = undefined;
      }
    });
    if (!attempt.ok) return { ok: false };
    return stopped === undefined ? { ok: true, value: attempt.value as T } : { ok: false, stopped };
  }

  async function writeLog(rows: readonly LogRow[], source: string): Promise<boolean> {
    const into = view.peek();
    if (!into) return false;
    report.value = '';
    const done = await longAction('Writing the log', async (course) => {
      const { blocksOf } = await import('./logblocks');
      const now = await host.readNamed(into.sheet, ['Serials', 'UnitRemark']);
      const moved = movedRow(rows, serialsOn(now));
      if (moved)
        throw new HostError(
          'refused',
          `Line ${moved.target! + 1} of “${into.sheet}” is no longer the one for “${moved.serial}”: somebody has changed the serial numbers there.`,
          'Nothing was written. Look at the preview again, which follows the sheet.',
        );
      const remarks = now.UnitRemark?.values.map((row) => row[0] ?? null) ?? [];
      const dated = `${source}, ${today}`;
      await host.writeBlocks(into.sheet, blocksOf(rows, into.setup.readings, remarks, dated), course);
      void log.note('imported', into.sheet, `${rows.length} lines of a meter log`);
    });
    await workbook.look();
    return done.ok;
  }

  /** What a unit's line holds that the view has not. */
  async function rowCells(into: BatchView, at: number): Promise<CellValue[]> {
    const count = countOf(into.setup.readings);
    const cell = (name: string, column = 0, row = at) => ({ name, row, column });
    return [
      ...(await host.readCells(into.sheet, [
        cell('RangeFactors'),
        cell('UnitRemark'),
        ...Array.from({ length: count }, (_, column) => cell('Readings', column)),
      ])),
    ];
  }

  async function openRun(): Promise<void> {
    const [into, one] = [view.peek(), unit.peek()];
    if (!into || !one) return;
    unitReport.value = { text: '', isBad: false };
    const attempt = await troubles.attempt('Opening the unit as a run sheet', async () => {
      const { unitRunPlan } = await import('../../src/sheets/batch/unitrun');
      const [range, , ...readings] = await rowCells(into, one.line);
      const isByRow = into.setup.ambient === 'by row';
      const ambient = isByRow
        ? (await host.readCells(into.sheet, [{ name: 'AmbientReadings', row: one.line, column: 0 }]))[0]
        : undefined;
      const shared =
        into.setup.ambient === 'once'
          ? await host.readCells(into.sheet, [
              { name: 'AmbientReadings', row: 0, column: 0 },
              { name: 'AmbientRange', row: 0, column: 0 },
            ])
          : [];
      const plan = unitRunPlan(
        into.setup,
        { ...into.setup.units[one.line]!, range, readings, ...(isByRow ? { ambient } : {}) },
        shared.length > 0 ? { reading: shared[0], range: shared[1] } : undefined,
        into.sheet,
        makeId(),
      );
      return host.build({ ...plan, title: ['Run', one.serial].filter(Boolean).join(' ') });
    });
    if (!attempt.ok) return;
    run.value = attempt.value.sheet;
    unitReport.value = {
      text: `Opened as the sheet “${attempt.value.sheet}”. When it is done, take its readings back here.`,
      isBad: false,
    };
    await workbook.look();
  }

  async function takeRun(): Promise<void> {
    const [into, one, from] = [view.peek(), unit.peek(), chosenRun.peek()];
    if (!into || !one || from === '') return;
    unitReport.value = { text: '', isBad: false };
    const attempt = await troubles.attempt('Taking the run sheet back', async () => {
      const { RUN_NAMES, takeRun: taken } = await import('../../src/sheets/batch/unitrun');
      const { backBlocks } = await import('./back');
      const [runCells, batchCells] = [
        await host.readNamed(from, RUN_NAMES),
        await host.readNamed(into.sheet, VIEW_NAMES),
      ];
      const found = taken(runCells, batchCells, into.setup, one.line);
      if ('problems' in found) return { text: found.problems.join(' '), isBad: true };
      if (found.taken === 0) return { text: `“${from}” has no readings yet.`, isBad: true };
      const [, remark] = await rowCells(into, one.line);
      const back = backBlocks(found, one, into.setup.units[one.line], {
        from,
        today,
        remark: typeof remark === 'string' ? remark : '',
        max: REMARK_MAX,
      });
      await host.writeBlocks(into.sheet, back.blocks);
      void log.note('took over', into.sheet, `Readings of “${from}” into the line of ${one.serial}`);
      return { text: back.report, isBad: false };
    });
    if (attempt.ok) unitReport.value = attempt.value;
    await workbook.look();
  }

  return {
    isOpen,
    texts,
    understood,
    isAllShown,
    progress,
    report,
    sheets,
    view,
    trouble,
    logging: createLogging(
      computed(() => view.value?.log),
      writeLog,
    ),
    wanted,
    found,
    unit,
    runs,
    chosenRun,
    unitReport,
    fold: (open) => {
      isOpen.value = open;
    },
    type: (part) => {
      texts.value = { ...texts.value, ...part };
      const answered = Object.keys(part).map((id) => [id, undefined]);
      marks.value = { ...marks.value, ...Object.fromEntries(answered) };
      report.value = '';
    },
    decide: (id, mark) => {
      marks.value = { ...marks.value, [id]: mark };
    },
    takeReference: () => {
      const reading = workbook.reading.peek();
      if (!reading) return;
      const centre = (stem: string) => {
        const value = reading.values[`${stem}Net`]?.values[1]?.[1];
        return typeof value === 'number' ? value : undefined;
      };
      const words = (n: number | undefined) => (n === undefined ? '' : retyped(n));
      const colours = ['Red', 'Green', 'Blue'].map(centre);
      const sum = colours.every((value) => value !== undefined)
        ? (colours as number[]).reduce((a, b) => a + b, 0)
        : undefined;
      const serial = cellOf(reading, 'SerialNumber');
      texts.value = {
        ...texts.value,
        reference: [serial, `run sheet ${reading.sheet}`].filter(Boolean).join(', '),
        whiteReference: words(centre('White')),
        colourReference: hasColour(understood.peek().setup?.readings ?? 'centre in each colour')
          ? words(sum)
          : '',
        whiteOutput: words(resultOf(reading, 'WhiteLightOutput')),
        colourOutput: words(resultOf(reading, 'ColourLightOutput')),
      };
    },
    build: async () => {
      isAllShown.value = true;
      report.value = '';
      const { setup } = understood.peek();
      if (!setup) {
        newRun.form.showAll();
        return false;
      }
      const done = await longAction('Building the batch', async (course) => {
        // The plan is wanted only now.
        const { batchPlan } = await import('../../src/sheets/batch');
        return host.build(batchPlan(setup, makeId()), course);
      });
      if (!done.ok) {
        report.value = done.stopped ?? '';
        await workbook.look();
        return false;
      }
      picked.value = done.value.sheet;
      isAllShown.value = false;
      report.value = `Built the sheet “${done.value.sheet}” with ${setup.lines} lines.`;
      await workbook.look();
      return true;
    },
    stop: () => stopper?.abort(),
    pick: (sheet) => {
      picked.value = sheet;
      line.value = undefined;
    },
    search: (next) => {
      wanted.value = next;
    },
    lookAt: (next) => {
      report.value = '';
      line.value = next;
      wanted.value = '';
      unitReport.value = { text: '', isBad: false };
    },
    goTo: async (cell) => {
      const sheet = view.peek()?.sheet;
      if (sheet) await troubles.attempt('Going to the cell', () => host.select(sheet, cell));
    },
    refresh: async () => {
      const sheet = view.peek()?.sheet;
      if (!sheet) return;
      await troubles.attempt('Entering the function again', () => host.enterAgain(sheet, FUNCTION_NAMES));
      await workbook.look();
    },
    chooseRun: (sheet) => {
      run.value = sheet;
    },
    openRun,
    takeRun,
  };
}

/** The first row of a log whose line on the sheet belongs to another unit by now. */
function movedRow(rows: readonly LogRow[], serials: readonly string[]): LogRow | undefined {
  return rows.find(({ target, serial, isNew }) => serials[target!] !== (isNew ? '' : serial));
}
