import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { HostError } from '../../src/excel/host';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import {
  DATA_SHEET_KEYS,
  keepMeters,
  keptMeters,
  type Meters,
  meterOf,
  withMeter,
} from '../../src/template/meters';
import { newRunOf } from '../run/newrun';
import { assembleFields } from '../setup/assemble';
import type { FieldId } from '../setup/field';
import { FIELD_IDS, FIELDS } from '../setup/fields';
import { textsOfSetup } from '../setup/fromsetup';
import { lastLook } from '../store/lastlook';
import { perStore } from '../store/perstore';
import type { Trouble } from '../store/trouble';
import type { Store } from '../store/type';
import { asPart, foundOn } from './found';

/** The meters a workbook keeps, for the forms that ask for one. */
export interface MyMeters {
  /** Undefined until the workbook was read. */
  readonly meters: ReadonlySignal<Meters | undefined>;
  readonly trouble: ReadonlySignal<Trouble | undefined>;
  readonly report: ReadonlySignal<string>;
  /** Fills the form in with a meter of the list. */
  take(name: string): void;
  /** Keeps the meter of the form, in place of the one of its name. */
  keep(): Promise<void>;
  forget(name: string): Promise<void>;
  /** Fills in what a meter check has found, and says where it is from. */
  takeCheck(sheet: string): Promise<void>;
}

/** Pages that ask for a meter, or remind of one. */
const ASKS: ReadonlySet<string> = new Set(['home', 'run', 'batch', 'spot', 'metercheck']);

/** Fields of the form that belong to the meter and not to what is measured. */
const OF_METER: readonly FieldId[] = FIELD_IDS.filter((id) => {
  const { path } = FIELDS[id];
  return path?.startsWith('meter.') || DATA_SHEET_KEYS.some((key) => path === `uncertainty.${key}`);
});

export const myMetersOf = perStore((store: Store): MyMeters => {
  const { host, workbook, troubles, page } = store;
  const meters = signal<Meters | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  const report = signal('');
  const { form } = newRunOf(store);
  const namesNow = async () => (await host.book({ sheets: [] })).names;
  const look = lastLook(async () => keptMeters(await namesNow()), {
    what: 'Reading the meters of the workbook',
    trouble,
    isKept: true,
    take: (found) => {
      meters.value = found;
    },
  });
  // Not at every change of a sheet: the list changes by what is done here, and elsewhere between two looks at a page.
  const isThere = computed(() => workbook.survey.value !== undefined);
  effect(() => {
    if (isThere.value && ASKS.has(page.value) && troubles.busy.value === '') void look();
  });

  /** Changes the list as it is now in the workbook: another window may have kept one meanwhile. */
  async function change(
    doing: string,
    done: string,
    make: (list: Extract<Meters, { ok: true }>['meters']) => Extract<Meters, { ok: true }>['meters'],
  ) {
    report.value = '';
    const attempt = await troubles.attempt(doing, async () => {
      const names = await namesNow();
      const now = keptMeters(names);
      if (!now.ok) throw new HostError('refused', now.problem, 'It is left as it is.');
      await host.editNames([keepMeters(make(now.meters), names)]);
    });
    if (attempt.ok) report.value = done;
    await look();
  }

  return {
    meters,
    trouble,
    report,
    take: (name) => {
      const now = meters.peek();
      const kept = now?.ok ? now.meters.find(({ meter }) => meter.name === name) : undefined;
      if (!kept) return;
      const usual = defaultRunSetup();
      const texts = textsOfSetup({
        ...usual,
        meter: kept.meter,
        uncertainty: { ...usual.uncertainty, ...kept.uncertainty },
      });
      form.take(Object.fromEntries(OF_METER.map((id) => [id, texts[id] ?? ''])));
      report.value = `Filled in from the list: “${name}”.`;
    },
    keep: async () => {
      const unfit = OF_METER.filter((id) => form.unfit.peek().includes(id));
      const own = meterOf(assembleFields(form.texts.peek(), form.reads.peek()));
      if (!own || unfit.length > 0) {
        form.showAll();
        report.value = own
          ? 'A field of the meter needs another look.'
          : 'The meter needs a name, to be found again by.';
        return;
      }
      const { name } = own.meter;
      await change('Keeping the meter', `“${name}” is kept in this workbook.`, (list) =>
        withMeter(list, own),
      );
    },
    forget: (name) =>
      change('Taking the meter off the list', `“${name}” is off the list. Sheets stay as they are.`, (list) =>
        list.filter(({ meter }) => meter.name !== name),
      ),
    takeCheck: async (sheet) => {
      const attempt = await troubles.attempt('Reading the meter check', () => host.read(sheet));
      if (!attempt.ok) return;
      const { meter, date, repeatability, readings, placing, linearity } = foundOn(attempt.value);
      const found = [
        ...(repeatability === undefined ? [] : [`s ${asPart(repeatability)}`]),
        ...(placing === undefined ? [] : [`placing ${asPart(placing)}`]),
        ...(linearity === undefined ? [] : [`linearity ${asPart(linearity)}`]),
      ];
      if (found.length === 0) {
        report.value = `“${sheet}” has found nothing yet: type its readings on that sheet first.`;
        return;
      }
      const percent = (value: number) => String(Number((100 * value).toPrecision(6)));
      form.take({
        ...(repeatability === undefined
          ? {}
          : { repeatability: percent(repeatability), repeatabilityReadings: String(readings) }),
        ...(placing === undefined ? {} : { placing: percent(placing) }),
        ...(linearity === undefined ? {} : { linearity: percent(linearity) }),
        ...(meter === '' ? {} : { meterName: meter }),
        meterCheck: `Meter check${meter && ` of ${meter}`}${date && `, ${date}`}: ${found.join(', ')}`.slice(
          0,
          120,
        ),
      });
      report.value = `Filled in from “${sheet}”: ${found.join(', ')}.`;
    },
  };
});
