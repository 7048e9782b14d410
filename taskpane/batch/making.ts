import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import { sensorFactor } from '../../src/sheets/run/causes';
import { createForm, type Form, faultOf, type Restore } from '../form/form';
import { retyped } from '../parse/quantity';
import { cellOf, columnOf, resultOf } from '../run/cell';
import { newRunOf } from '../run/newrun';
import { withRated } from '../run/rated';
import type { Store } from '../store';
import { refused, type Said } from '../store/said';
import { BATCH, type BatchField, batchSetup } from './form';
import type { LongActions } from './longactions';

/** The form of a new batch, and the sheet that comes of it. */
export interface NewBatch {
  readonly form: Form<BatchField>;
  /** Where the units in the field come from; empty where they were typed. */
  readonly unitsFrom: ReadonlySignal<string>;
  snapshot(): Restore;
  /** Takes the units drawn from a lot, its limits where no offer gives them, and what need and offers know of them. */
  takeLot(lot: SheetReading): Promise<void>;
  /** Fills in the reference unit from the run that is shown. */
  takeReference(): void;
  build(): Promise<boolean>;
}

/** Said where every field is fit by itself. */
const SHAPE = 'the sides and diagonals of the image do not fit together.';

/** @param tell says what an action came to @param show shows the batch of a sheet */
export function createNewBatch(
  store: Store,
  long: LongActions,
  tell: (words: Said) => void,
  show: (sheet: string) => void,
): NewBatch {
  const { host, workbook, front, makeId } = store;
  const newRun = newRunOf(store);
  const unitsFrom = signal('');
  const form = createForm(BATCH, {
    name: 'batch',
    onType: (id) => {
      if (id === 'units') unitsFrom.value = '';
      tell('');
    },
  });
  const setup = computed(() => batchSetup(form.texts.value, newRun.form.setup.value, form.reads.value));
  /** An offer that is chosen goes before the lot's limits: both say the same, and the offer says it of the model. */
  function takeLimits(lot: SheetReading): void {
    const { offers, ratedFrom } = newRun;
    if (ratedFrom.peek() === undefined && offers.peek().length > 0)
      newRun.takeRatedFrom(offers.peek().at(-1));
    if (offers.peek().length > 0) return;
    const least = (name: 'LeastWhite' | 'LeastColour') => {
      const value = cellOf(lot, name);
      return typeof value === 'number' ? retyped(value) : '';
    };
    newRun.form.take({
      ratedWhite: least('LeastWhite'),
      ratedColour: least('LeastColour'),
      minimum: '100',
    });
  }

  return {
    form,
    unitsFrom,
    snapshot: () => {
      const [restore, from] = [form.snapshot(), unitsFrom.peek()];
      return () => {
        restore();
        unitsFrom.value = from;
      };
    },
    takeLot: async (lot) => {
      const places = columnOf(lot, 'DrawPlaces');
      const drawn = columnOf(lot, 'Serials')
        .map((serial, i) => ({ serial: String(serial ?? '').trim(), place: places[i] }))
        .filter(({ serial, place }) => serial !== '' && typeof place === 'number')
        .sort((a, b) => Number(a.place) - Number(b.place));
      form.take({
        title: String(cellOf(lot, 'Lot') ?? '').trim(),
        units: drawn.map(({ serial }) => serial).join('\n'),
        lines: '',
      });
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
      const known = (name: 'ThrowDistance' | 'SensorHeight') => {
        const value = cellOf(reading, name);
        return typeof value === 'number' ? value : undefined;
      };
      // Centres of units are read where the sensor is, and so is the one they are held against: the run has it at the screen.
      const place = sensorFactor({
        throwDistance: known('ThrowDistance'),
        sensorHeight: known('SensorHeight'),
      });
      const centre = (stem: 'White' | 'Red' | 'Green' | 'Blue') => {
        const value = reading.values[`${stem}Net`]?.values[1]?.[1];
        return typeof value === 'number' ? value / place : undefined;
      };
      const words = (n: number | undefined) => (n === undefined ? '' : retyped(n));
      const colours = (['Red', 'Green', 'Blue'] as const).map(centre);
      const sum = colours.every((value) => value !== undefined)
        ? (colours as number[]).reduce((a, b) => a + b, 0)
        : undefined;
      const serial = cellOf(reading, 'SerialNumber');
      form.take({
        reference: [serial, `run sheet ${reading.sheet}`].filter(Boolean).join(', '),
        whiteReference: words(centre('White')),
        colourReference: words(sum),
        whiteOutput: words(resultOf(reading, 'WhiteLightOutput')),
        colourOutput: words(resultOf(reading, 'ColourLightOutput')),
      });
    },
    build: async () => {
      form.showAll();
      newRun.form.showAll();
      tell('');
      const batch = setup.peek();
      if (!batch) {
        tell(refused(`Nothing was built: ${faultOf(form) || faultOf(newRun.form) || SHAPE}`));
        return false;
      }
      const done = await long.run('Building the batch', async (course) => {
        // The plan is wanted only now.
        const { batchPlan } = await import('../../src/sheets/batch');
        return host.build(await withRated(host, batchPlan(batch, makeId()), newRun.ratedFrom.peek()), course);
      });
      if (!done.ok) {
        tell(done.stopped ?? '');
        await workbook.look();
        return false;
      }
      show(done.value.sheet);
      await workbook.look();
      front.arrive(`Built the sheet “${done.value.sheet}” with ${batch.lines} lines.`);
      return true;
    },
  };
}
