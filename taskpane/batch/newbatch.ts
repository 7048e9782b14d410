import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { hasColour } from '../../src/procurement/batch/columns';
import type { DecimalMark } from '../parse/number';
import { retyped } from '../parse/quantity';
import { cellOf, resultOf } from '../run/cell';
import type { Store } from '../store';
import {
  type BatchMarks,
  type BatchNumber,
  type BatchTexts,
  START,
  type UnderstoodBatch,
  understandBatch,
} from './form';
import type { LongActions } from './longactions';

/** The form of a new batch, and the sheet that comes of it. */
export interface NewBatch {
  readonly texts: ReadonlySignal<BatchTexts>;
  readonly understood: ReadonlySignal<UnderstoodBatch>;
  /** What is merely still missing is said only after an attempt to build. */
  readonly isAllShown: ReadonlySignal<boolean>;
  type(part: Partial<BatchTexts>): void;
  decide(id: BatchNumber, mark: DecimalMark): void;
  /** Fills in the reference unit from the run that is shown. */
  takeReference(): void;
  build(): Promise<boolean>;
}

/** @param tell says what an action came to @param show shows the batch of a sheet */
export function createNewBatch(
  { host, workbook, newRun, makeId }: Store,
  long: LongActions,
  tell: (words: string) => void,
  show: (sheet: string) => void,
): NewBatch {
  const texts = signal(START);
  const marks = signal<BatchMarks>({});
  const isAllShown = signal(false);
  const understood = computed(() => understandBatch(texts.value, marks.value, newRun.form.setup.value));

  return {
    texts,
    understood,
    isAllShown,
    type: (part) => {
      texts.value = { ...texts.value, ...part };
      const answered = Object.keys(part).map((id) => [id, undefined]);
      marks.value = { ...marks.value, ...Object.fromEntries(answered) };
      tell('');
    },
    decide: (id, mark) => {
      marks.value = { ...marks.value, [id]: mark };
    },
    takeReference: () => {
      const reading = workbook.reading.peek();
      if (!reading) return;
      const centre = (stem: 'White' | 'Red' | 'Green' | 'Blue') => {
        const value = reading.values[`${stem}Net`]?.values[1]?.[1];
        return typeof value === 'number' ? value : undefined;
      };
      const words = (n: number | undefined) => (n === undefined ? '' : retyped(n));
      const colours = (['Red', 'Green', 'Blue'] as const).map(centre);
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
      tell('');
      const { setup } = understood.peek();
      if (!setup) {
        newRun.form.showAll();
        return false;
      }
      const done = await long.run('Building the batch', async (course) => {
        // The plan is wanted only now.
        const { batchPlan } = await import('../../src/sheets/batch');
        return host.build(batchPlan(setup, makeId()), course);
      });
      if (!done.ok) {
        tell(done.stopped ?? '');
        await workbook.look();
        return false;
      }
      show(done.value.sheet);
      isAllShown.value = false;
      tell(`Built the sheet “${done.value.sheet}” with ${setup.lines} lines.`);
      await workbook.look();
      return true;
    },
  };
}
