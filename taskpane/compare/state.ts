import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Host, HostError, type KnownSheet, type SheetReading } from '../../src/excel/host';
import { LEAST_RUNS, MOST_RUNS } from '../../src/sheets/comparison/run';
import { type Followed, follow } from '../store/follow';
import { perStore } from '../store/perstore';
import type { Store } from '../store/type';
import type { Grouping } from './compared';

/** How runs of a new comparison are taken to share things. */
interface CompareChoices {
  readonly meters: Grouping;
  readonly images: Grouping;
  readonly digits: boolean;
  readonly spectral: boolean;
}

/** Comparisons of this workbook: building one, and the one that is shown. */
interface Compare {
  readonly runs: ReadonlySignal<readonly KnownSheet[]>;
  /** Sheets of the runs to compare, in tab order. */
  readonly chosen: ReadonlySignal<readonly string[]>;
  readonly choices: ReadonlySignal<CompareChoices>;
  /** Why no comparison can be built of what is chosen; empty where one can. */
  readonly objection: ReadonlySignal<string>;
  /** The comparison that is looked at. */
  readonly followed: Followed;
  toggle(sheet: string): void;
  choose(choices: Partial<CompareChoices>): void;
  build(): Promise<void>;
}

/** The choices outlive looking at another page. */
export const compareOf = perStore(createCompare);

function createCompare(store: Store): Compare {
  const { host, workbook, troubles, front, makeId } = store;
  const { runs } = workbook;
  const ticked = signal<readonly string[] | undefined>(undefined);
  const choices = signal<CompareChoices>({
    meters: 'by what the sheets say',
    images: 'by what the sheets say',
    digits: false,
    spectral: false,
  });
  const followed = follow(store, 'comparison');
  // Until somebody chooses, the runs there are; a run that was deleted is no longer chosen.
  const chosen = computed(() => {
    const sheets = runs.value.map(({ sheet }) => sheet);
    return ticked.value
      ? sheets.filter((sheet) => ticked.value!.includes(sheet))
      : sheets.slice(0, MOST_RUNS);
  });

  return {
    runs,
    chosen,
    choices,
    followed,
    objection: computed(() => {
      const count = chosen.value.length;
      if (count < LEAST_RUNS) return 'Choose at least two runs.';
      return count > MOST_RUNS ? `At most ${MOST_RUNS} runs fit beside each other; ${count} are chosen.` : '';
    }),
    toggle: (sheet) => {
      const now = chosen.value;
      ticked.value = now.includes(sheet) ? now.filter((one) => one !== sheet) : [...now, sheet];
    },
    choose: (some) => {
      choices.value = { ...choices.value, ...some };
    },
    build: async () => {
      const attempt = await troubles.attempt('Building the comparison', async () => {
        const readings: SheetReading[] = [];
        for (const sheet of chosen.peek()) readings.push(await host.read(sheet));
        return buildPlan(host, readings, choices.peek(), makeId());
      });
      if (!attempt.ok) return;
      const { sheet } = attempt.value;
      followed.pick(sheet);
      await workbook.look();
      front.arrive(`Built the sheet “${sheet}”. It follows the run sheets; prices can be typed there.`);
    },
  };
}

/** The plan is wanted only now, so its code is not part of the first paint. */
async function buildPlan(host: Host, readings: readonly SheetReading[], choices: CompareChoices, id: string) {
  const [{ comparedRuns }, { comparisonPlan, DEFAULT_COMPARISON }] = await Promise.all([
    import('./compared'),
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
