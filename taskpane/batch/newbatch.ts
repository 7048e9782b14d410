import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import { hasColour } from '../../src/procurement/batch/columns';
import type { DecimalMark } from '../parse/number';
import { retyped } from '../parse/quantity';
import { cellOf, columnOf, resultOf } from '../run/cell';
import { newRunOf } from '../run/newrun';
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
  /** Where the units in the field come from; empty where they were typed. */
  readonly unitsFrom: ReadonlySignal<string>;
  /** What is merely still missing is said only after an attempt to build. */
  readonly isAllShown: ReadonlySignal<boolean>;
  /** How the form stands now; calling what comes back puts it so again. */
  snapshot(): () => void;
  type(part: Partial<BatchTexts>): void;
  decide(id: BatchNumber, mark: DecimalMark): void;
  /** Takes the units drawn from a lot, its limits where no offer gives them, and what need and offers know of them. */
  takeLot(lot: SheetReading): Promise<void>;
  /** Fills in the reference unit from the run that is shown. */
  takeReference(): void;
  build(): Promise<boolean>;
}

/** @param tell says what an action came to @param show shows the batch of a sheet */
export function createNewBatch(
  store: Store,
  long: LongActions,
  tell: (words: string) => void,
  show: (sheet: string) => void,
): NewBatch {
  const { host, workbook, front, makeId } = store;
  const newRun = newRunOf(store);
  const texts = signal(START);
  const marks = signal<BatchMarks>({});
  const isAllShown = signal(false);
  const unitsFrom = signal('');
  /** An offer that is chosen goes before the lot's limits: both say the same, and the offer says it of the model. */
  function takeLimits(lot: SheetReading): void {
    const { form, offers, ratedFrom } = newRun;
    if (ratedFrom.peek() === undefined && offers.peek().length > 0)
      newRun.takeRatedFrom(offers.peek().at(-1));
    if (offers.peek().length > 0) return;
    const least = (name: 'LeastWhite' | 'LeastColour') => {
      const value = cellOf(lot, name);
      return typeof value === 'number' ? retyped(value) : '';
    };
    form.type('ratedWhite', least('LeastWhite'));
    form.type('ratedColour', least('LeastColour'));
    form.type('minimum', '100');
  }
  const understood = computed(() => understandBatch(texts.value, marks.value, newRun.form.setup.value));

  return {
    texts,
    understood,
    isAllShown,
    unitsFrom,
    snapshot: () => {
      const [before, marked, from] = [texts.peek(), marks.peek(), unitsFrom.peek()];
      return () => {
        texts.value = before;
        marks.value = marked;
        unitsFrom.value = from;
        isAllShown.value = false;
      };
    },
    type: (part) => {
      if (part.units !== undefined) unitsFrom.value = '';
      texts.value = { ...texts.value, ...part };
      const answered = Object.keys(part).map((id) => [id, undefined]);
      marks.value = { ...marks.value, ...Object.fromEntries(answered) };
      tell('');
    },
    decide: (id, mark) => {
      marks.value = { ...marks.value, [id]: mark };
    },
    takeLot: async (lot) => {
      const places = columnOf(lot, 'DrawPlaces');
      const drawn = columnOf(lot, 'Serials')
        .map((serial, i) => ({ serial: String(serial ?? '').trim(), place: places[i] }))
        .filter(({ serial, place }) => serial !== '' && typeof place === 'number')
        .sort((a, b) => Number(a.place) - Number(b.place));
      texts.value = {
        ...texts.value,
        title: String(cellOf(lot, 'Lot') ?? '').trim(),
        units: drawn.map(({ serial }) => serial).join('\n'),
        lines: '',
      };
      unitsFrom.value = `The ${drawn.length} units drawn on “${lot.sheet}”, in the order of the draw.`;
      takeLimits(lot);
      const { takeKnown } = await import('./known');
      const known = await store.troubles.attempt('Reading what is known of the units', () =>
        takeKnown(store),
      );
      if (known.ok && known.value.length > 0) unitsFrom.value += ` ${known.value.join(' ')}`;
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
        const plan = batchPlan(setup, makeId());
        const offers = newRun.ratedFrom.peek();
        if (offers === undefined) return host.build(plan, course);
        const { ratedLinks, withLinks } = await import('../../src/sheets/linkfigures');
        const { values } = await host.read(offers);
        const addresses = Object.fromEntries(
          Object.entries(values).map(([name, { address }]) => [name, address]),
        );
        return host.build(withLinks(plan, ratedLinks({ sheet: offers, addresses })), course);
      });
      if (!done.ok) {
        tell(done.stopped ?? '');
        await workbook.look();
        return false;
      }
      show(done.value.sheet);
      isAllShown.value = false;
      await workbook.look();
      front.arrive(`Built the sheet “${done.value.sheet}” with ${setup.lines} lines.`);
      return true;
    },
  };
}
