import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { MeterSetup } from '../../src/sheets/runsetup';
import type { SpotReference, SpotSetup } from '../../src/sheets/spot/setup';
import { newRunOf } from '../run/newrun';
import { assembleMeter } from '../setup/assemble';
import { perStore } from '../store/perstore';
import type { Store } from '../store/type';

/** A new spot check: names of units, and building its sheet. The meter is the one of the run form. */
interface Spot {
  readonly title: ReadonlySignal<string>;
  /** Names as typed, one a line. */
  readonly names: ReadonlySignal<string>;
  readonly units: ReadonlySignal<readonly string[]>;
  readonly isDrawn: ReadonlySignal<boolean>;
  readonly seed: ReadonlySignal<string>;
  readonly reference: ReadonlySignal<SpotReference>;
  readonly hasAmbient: ReadonlySignal<boolean>;
  /** The meter that the readings are for; undefined while its fields are not fit. */
  readonly meter: ReadonlySignal<MeterSetup | undefined>;
  /** Why there is no sheet yet, after an attempt. */
  readonly problem: ReadonlySignal<string>;
  readonly built: ReadonlySignal<string>;
  change(part: Partial<SpotTexts>): void;
  /** How the form stands now; calling what comes back puts it so again. */
  snapshot(): () => void;
  build(): Promise<boolean>;
}

interface SpotTexts {
  title: string;
  names: string;
  isDrawn: boolean;
  seed: string;
  reference: SpotReference;
  hasAmbient: boolean;
}

/** What is typed outlives looking at another page. */
export const spotOf = perStore(createSpot);

function createSpot(store: Store): Spot {
  const { host, workbook, troubles, front, makeId } = store;
  const { form } = newRunOf(store);
  const texts = signal<SpotTexts>({
    title: '',
    names: '',
    isDrawn: false,
    seed: makeId(),
    reference: 'first',
    hasAmbient: true,
  });
  const problem = signal('');
  const built = signal('');
  const units = computed(() =>
    texts.value.names
      .split('\n')
      .map((name) => name.trim())
      .filter(Boolean),
  );
  const meter = computed(() => assembleMeter(form.texts.value, form.reads.value));
  return {
    title: computed(() => texts.value.title),
    names: computed(() => texts.value.names),
    units,
    isDrawn: computed(() => texts.value.isDrawn),
    seed: computed(() => texts.value.seed),
    reference: computed(() => texts.value.reference),
    hasAmbient: computed(() => texts.value.hasAmbient),
    meter,
    problem,
    built,
    snapshot: () => {
      const before = texts.peek();
      return () => {
        texts.value = before;
        problem.value = '';
      };
    },
    change: (part) => {
      texts.value = { ...texts.value, ...part };
      problem.value = '';
    },
    build: async () => {
      const { title, isDrawn, seed, reference, hasAmbient } = texts.peek();
      const { place, measuredBy, date } = form.texts.peek();
      if (!meter.peek()) {
        problem.value = 'The fields of the meter need another look.';
        return false;
      }
      const setup: SpotSetup = {
        title,
        units: units.peek(),
        reference,
        ...(isDrawn ? { seed } : {}),
        ambient: hasAmbient,
        place,
        measuredBy,
        date,
        meter: meter.peek()!,
      };
      built.value = '';
      const attempt = await troubles.attempt('Building the spot check', async () => {
        // The plan and its draw are wanted only now.
        const { spotPlan, spotOrder } = await import('../../src/sheets/spot');
        const order = spotOrder(setup.units, setup.seed);
        if (!order.ok) return order.problems.map(({ message }) => message).join(' ');
        built.value = (await host.build(spotPlan(setup, makeId()))).sheet;
        return '';
      });
      if (!attempt.ok) return false;
      problem.value = attempt.value;
      await workbook.look();
      if (built.peek() !== '')
        front.arrive(
          `Built the sheet \u201c${built.peek()}\u201d. Take its readings below, or type them on the sheet.`,
        );
      return attempt.value === '';
    },
  };
}
