import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { countOf } from '../../src/procurement/batch/columns';
import { serialKey } from '../../src/procurement/lot/serials';
import type { CellValue } from '../../src/sheets/book';
import type { CellName } from '../../src/sheets/names/all';
import type { Store } from '../store';
import { createUnitRuns, type UnitRuns } from './unitruns';
import { type BatchView, type UnitLine, VIEW_NAMES } from './view';

/** The units of a batch one by one: a unit's line, a full run of it, and that run's readings back into the line. */
export interface UnitState extends Pick<UnitRuns, 'runs' | 'chosenRun' | 'runsSay' | 'chooseRun'> {
  /** The text a unit is looked for by, and the units it fits. */
  readonly wanted: ReadonlySignal<string>;
  readonly found: ReadonlySignal<readonly UnitLine[]>;
  /** The unit that is looked at. */
  readonly unit: ReadonlySignal<UnitLine | undefined>;
  /** What the last action on a unit did or could not do. */
  readonly unitReport: ReadonlySignal<{ readonly text: string; readonly isBad: boolean }>;
  search(text: string): void;
  lookAt(line: number | undefined): void;
  /** Of the unit that is looked at, or of one given with its batch. */
  openRun(into?: BatchView, one?: UnitLine): Promise<void>;
  takeRun(): Promise<void>;
}

/** Units offered at once while somebody types; more are narrowed down by typing on. */
const OFFERED = 8;
const REMARK_MAX = 500;
const NOTHING = { text: '', isBad: false };

export function createUnit(store: Store, view: ReadonlySignal<BatchView | undefined>): UnitState {
  const { host, workbook, troubles, front, makeId, log, today } = store;
  const wanted = signal('');
  const line = signal<number | undefined>(undefined);
  const unitReport = signal(NOTHING);
  const unit = computed(() => view.value?.units.find((one) => one.line === line.value));
  const found = computed(() => unitsLike(view.value?.units ?? [], wanted.value));
  const ofUnit = createUnitRuns(store, unit);

  async function openRun(into = view.peek(), one = unit.peek()): Promise<void> {
    if (!into || !one) return;
    unitReport.value = NOTHING;
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
    ofUnit.chooseRun(attempt.value.sheet);
    const built = `Opened ${one.serial} as the sheet “${attempt.value.sheet}”. Its readings so far are there; when it is done, “${into.sheet}” takes them back.`;
    await workbook.look();
    front.arrive(built);
  }

  async function takeRun(): Promise<void> {
    const [into, one, from] = [view.peek(), unit.peek(), ofUnit.chosenRun.peek()];
    if (!into || !one) return;
    if (from === '') {
      unitReport.value = { text: 'Choose first which run sheet to take them from.', isBad: true };
      return;
    }
    unitReport.value = NOTHING;
    const attempt = await troubles.attempt('Taking the run sheet back', async () => {
      const { RUN_NAMES, takeRun: taken } = await import('../../src/sheets/batch/unitrun');
      const { backBlocks } = await import('./back');
      const [runCells, batchCells] = [
        await host.readNamed(from, RUN_NAMES),
        await host.readNamed(into.sheet, VIEW_NAMES),
      ];
      const found = taken(runCells, batchCells, into.setup, one.line);
      if ('problems' in found) return { text: found.problems.join(' '), isBad: true };
      if (found.taken === 0)
        return { text: `“${from}” has no readings yet: take them there first.`, isBad: true };
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

  /** What a unit's line holds that the view has not: its range factor, its remark and its readings. */
  async function rowCells(into: BatchView, row: number): Promise<CellValue[]> {
    const count = countOf(into.setup.readings);
    const cell = (name: CellName, column = 0) => ({ name, row, column });
    return [
      ...(await host.readCells(into.sheet, [
        cell('RangeFactors'),
        cell('UnitRemark'),
        ...Array.from({ length: count }, (_, column) => cell('Readings', column)),
      ])),
    ];
  }

  return {
    wanted,
    found,
    unit,
    unitReport,
    runs: ofUnit.runs,
    chosenRun: ofUnit.chosenRun,
    runsSay: ofUnit.runsSay,
    chooseRun: ofUnit.chooseRun,
    search: (next) => {
      wanted.value = next;
    },
    lookAt: (next) => {
      // A run chosen for one unit is none for the next.
      if (next !== line.peek()) ofUnit.chooseRun('');
      line.value = next;
      wanted.value = '';
      unitReport.value = NOTHING;
    },
    openRun,
    takeRun,
  };
}

/** Units whose serial number or place holds a text; those with just that serial number alone, if there are any. */
function unitsLike(units: readonly UnitLine[], text: string): readonly UnitLine[] {
  const key = serialKey(text).toLowerCase();
  if (key === '') return [];
  const fits = units.filter(({ serial, place }) => `${serial} ${place}`.toLowerCase().includes(key));
  const exact = fits.filter(({ serial }) => serial.toLowerCase() === key);
  return (exact.length > 0 ? exact : fits).slice(0, OFFERED);
}
