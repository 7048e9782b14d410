import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { type Host, HostError, type KnownSheet, type SheetReading } from '../../src/excel/host';
import type { Grouping } from '../compare/compared';
import type { Front } from './front';
import { lastLook, sheetsOf } from './lastlook';
import type { Trouble, Troubles } from './trouble';
import type { Workbook } from './workbook';

/** How runs of a new comparison are taken to share things. */
interface CompareChoices {
  readonly meters: Grouping;
  readonly images: Grouping;
  readonly digits: boolean;
  readonly spectral: boolean;
}

/** Comparisons of this workbook: building one, and the one that is shown. */
export interface Compare {
  readonly runs: ReadonlySignal<readonly KnownSheet[]>;
  /** Sheets of the runs to compare, in tab order. */
  readonly chosen: ReadonlySignal<readonly string[]>;
  readonly choices: ReadonlySignal<CompareChoices>;
  /** Why no comparison can be built of what is chosen; empty where one can. */
  readonly objection: ReadonlySignal<string>;
  readonly comparisons: ReadonlySignal<readonly KnownSheet[]>;
  readonly shown: ReadonlySignal<string | undefined>;
  readonly reading: ReadonlySignal<SheetReading | undefined>;
  readonly trouble: ReadonlySignal<Trouble | undefined>;
  /** Name of the sheet built last. */
  readonly built: ReadonlySignal<string>;
  toggle(sheet: string): void;
  choose(choices: Partial<CompareChoices>): void;
  pick(sheet: string): void;
  build(): Promise<void>;
  stop(): void;
}

export const LEAST = 2;
const MOST = 12;

export function createCompare(
  host: Host,
  workbook: Workbook,
  troubles: Troubles,
  front: Front,
  makeId: () => string,
): Compare {
  const { runs, survey } = workbook;
  const ticked = signal<readonly string[] | undefined>(undefined);
  const choices = signal<CompareChoices>({
    meters: 'by what the sheets say',
    images: 'by what the sheets say',
    digits: false,
    spectral: false,
  });
  const picked = signal<string | undefined>(undefined);
  const reading = signal<SheetReading | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  const built = signal('');
  // Until somebody chooses, the runs there are; a run that was deleted is no longer chosen.
  const chosen = computed(() => {
    const sheets = runs.value.map(({ sheet }) => sheet);
    return ticked.value ? sheets.filter((sheet) => ticked.value!.includes(sheet)) : sheets.slice(0, MOST);
  });
  const { sheets: comparisons, shown } = sheetsOf(survey, 'comparison', picked, front);
  const look = lastLook(
    async (sheet: string | undefined) => (sheet === undefined ? undefined : host.read(sheet)),
    {
      what: 'Reading the comparison',
      trouble,
      take: (found) => {
        reading.value = found;
      },
    },
  );
  const unfollow = effect(() => {
    // Every look at the workbook makes a new survey.
    if (survey.value && front.isOf('comparison')) void look(shown.value);
  });

  return {
    runs,
    chosen,
    choices,
    comparisons,
    shown,
    reading,
    trouble,
    built,
    objection: computed(() => {
      const count = chosen.value.length;
      if (count < LEAST) return 'Choose at least two runs.';
      return count > MOST ? `At most ${MOST} runs fit beside each other; ${count} are chosen.` : '';
    }),
    toggle: (sheet) => {
      const now = chosen.value;
      ticked.value = now.includes(sheet) ? now.filter((one) => one !== sheet) : [...now, sheet];
    },
    choose: (some) => {
      choices.value = { ...choices.value, ...some };
    },
    pick: (sheet) => {
      picked.value = sheet;
    },
    build: async () => {
      built.value = '';
      const attempt = await troubles.attempt('Building the comparison', async () => {
        const readings: SheetReading[] = [];
        for (const sheet of chosen.peek()) readings.push(await host.read(sheet));
        return buildPlan(host, readings, choices.peek(), makeId());
      });
      if (!attempt.ok) return;
      built.value = attempt.value.sheet;
      picked.value = attempt.value.sheet;
      await workbook.look();
      front.arrive(`Built the sheet “${built.value}”. It follows the run sheets; prices can be typed there.`);
    },
    stop: unfollow,
  };
}

/** The plan is wanted only now, so its code is not part of the first paint. */
async function buildPlan(host: Host, readings: readonly SheetReading[], choices: CompareChoices, id: string) {
  const [{ comparedRuns }, { comparisonPlan, DEFAULT_COMPARISON }] = await Promise.all([
    import('../compare/compared'),
    import('../../src/sheets/comparison'),
  ]);
  const { meters, images, digits, spectral } = choices;
  const plan = comparisonPlan(
    comparedRuns(readings, meters, images),
    { ...DEFAULT_COMPARISON, sharing: { digits, spectral } },
    id,
  );
  if (!plan.ok) {
    const message = plan.problems.map((problem) => problem.message).join(' ');
    throw new HostError('refused', message, 'Choose other runs. Nothing was built.');
  }
  return host.build(plan.value);
}
