import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { BuiltSheet } from '../../src/sheets/built';
import { isExample } from '../../src/sheets/example/mark';
import { perStore } from '../store/perstore';
import type { Store } from '../store/type';

/** How far the example is while it is built. */
interface ExampleProgress {
  /** Sheets that are there. */
  readonly done: number;
  readonly of: number;
  /** The sheet that is being built. */
  readonly label: string;
}

/** The ready example: invented data on a set of linked sheets. */
interface Example {
  /** True in a workbook without sheets of ours, and as long as there is something to say of the building. */
  readonly isOffered: ReadonlySignal<boolean>;
  /** True where a sheet of the workbook belongs to the example. */
  readonly isThere: ReadonlySignal<boolean>;
  readonly progress: ReadonlySignal<ExampleProgress | undefined>;
  readonly isStopping: ReadonlySignal<boolean>;
  readonly report: ReadonlySignal<string>;
  open(): Promise<void>;
  /** Stops after the sheet that is being built. */
  stop(): void;
}

/** It goes on while another page is looked at. */
export const exampleOf = perStore(createExample);

/** Builds by the program itself: the log gets one line for the whole example, and nobody invented as its author. */
function createExample({ program, workbook, troubles, log, makeId }: Store): Example {
  const progress = signal<ExampleProgress | undefined>(undefined);
  const isStopping = signal(false);
  const report = signal('');

  async function build(): Promise<string> {
    const { exampleSteps } = await import('../../src/sheets/example');
    const steps = exampleSteps();
    const built = new Map<string, BuiltSheet>();
    for (const { key, label, make } of steps) {
      if (isStopping.peek()) break;
      progress.value = { done: built.size, of: steps.length, label };
      const plan = make(built, makeId());
      built.set(key, { ...(await program.build(plan)), plan });
    }
    const first = built.get(steps[0]!.key);
    if (first) await program.select(first.sheet, first.plan.start);
    if (first)
      void log.note('built', '', `Ready example of invented data, ${built.size} of ${steps.length} sheets`);
    // Lists of what there is do not count the list.
    const overviews = [...built.values()].filter(({ plan }) => plan.kind === 'overview').length;
    const words =
      built.size === steps.length
        ? `Built ${built.size - overviews} sheets and an overview of them`
        : `Stopped after ${built.size} of ${steps.length} sheets`;
    return built.size === steps.length
      ? `${words}. Begin with “${first!.sheet}” and go through the tabs; the pane shows what each of them came to.`
      : `${words}. Those that were built are complete; delete them by their tabs if you do not want them.`;
  }

  return {
    isOffered: computed(
      () => progress.value !== undefined || report.value !== '' || workbook.survey.value?.sheets.length === 0,
    ),
    isThere: computed(() => workbook.survey.value?.sheets.some(isExample) ?? false),
    progress,
    isStopping,
    report,
    open: async () => {
      isStopping.value = false;
      report.value = '';
      const attempt = await troubles.attempt('Building the example', build);
      progress.value = undefined;
      if (attempt.ok) report.value = attempt.value;
      await workbook.look();
    },
    stop: () => {
      isStopping.value = true;
    },
  };
}
