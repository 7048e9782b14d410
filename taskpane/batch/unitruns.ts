import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { serialKey } from '../../src/procurement/lot/serials';
import { cellOf } from '../run/cell';
import type { Store } from '../store';
import { lastLook } from '../store/lastlook';
import type { Trouble } from '../store/trouble';
import type { UnitLine } from './view';

/** Run sheets that a unit's readings can be taken from. Whose a run is, is told by the serial number on it. */
export interface UnitRuns {
  /** Names of the sheets; those that bear the unit's serial number come first. */
  readonly runs: ReadonlySignal<readonly string[]>;
  /** The sheet chosen, else the one that bears the serial number; empty while none or several do. */
  readonly chosenRun: ReadonlySignal<string>;
  /** Why none is chosen, or why the runs could not be read; empty otherwise. */
  readonly runsSay: ReadonlySignal<string>;
  /** An empty text leaves the choice to the serial number again. */
  chooseRun(sheet: string): void;
}

export function createUnitRuns(
  { host, workbook }: Store,
  unit: ReadonlySignal<UnitLine | undefined>,
): UnitRuns {
  const picked = signal('');
  /** Serial numbers as they are told apart, by run sheet. */
  const serials = signal<ReadonlyMap<string, string> | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);

  const look = lastLook(
    async () => {
      const readings = await host.readSome({ run: ['SerialNumber'] });
      return new Map(readings.map((reading) => [reading.sheet, serialKey(cellOf(reading, 'SerialNumber'))]));
    },
    {
      what: 'Reading the serial numbers of the runs',
      trouble,
      take: (found) => {
        serials.value = found;
      },
    },
  );
  const isWanted = computed(() => unit.value !== undefined);
  effect(() => {
    // Every look at the workbook makes a new survey.
    if (workbook.survey.value && isWanted.value) void look();
  });

  const all = computed(() => workbook.runs.value.map(({ sheet }) => sheet));
  const own = computed(() => {
    const serial = serialKey(unit.value?.serial ?? '');
    return serial === '' ? [] : all.value.filter((sheet) => serials.value?.get(sheet) === serial);
  });
  const chosenRun = computed(() => {
    if (all.value.includes(picked.value)) return picked.value;
    return own.value.length === 1 ? own.value[0]! : '';
  });

  return {
    runs: computed(() => [...own.value, ...all.value.filter((sheet) => !own.value.includes(sheet))]),
    chosenRun,
    runsSay: computed(() => {
      if (chosenRun.value !== '' || all.value.length === 0 || !unit.value) return '';
      if (trouble.value) return trouble.value.message;
      if (!serials.value) return '';
      const { serial } = unit.value;
      if (serial === '') return 'This line has no serial number to know its run sheet by.';
      return own.value.length === 0
        ? `No run sheet bears the serial number “${serial}”: choose it by hand, or open the unit as a run sheet.`
        : `${own.value.length} run sheets bear the serial number “${serial}”. Which one counts is for you to say.`;
    }),
    chooseRun: (sheet) => {
      picked.value = sheet;
    },
  };
}
