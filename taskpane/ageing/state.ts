import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { KnownSheet } from '../../src/excel/host';
import { ageingPlan } from '../../src/sheets/ageing';
import { type Measurement, MOST_MEASUREMENTS } from '../../src/sheets/ageing/setup';
import { buildSheet } from '../form/build';
import { createForm, type Form, faultOf, type Restore } from '../form/form';
import { createLines, type Lines } from '../form/lines';
import { retyped } from '../parse/quantity';
import { cellOf } from '../run/cell';
import type { Store } from '../store';
import { perStore } from '../store/perstore';
import { goesWith, refused, type Said } from '../store/said';
import { type AgeingAnswer, answer } from './forecast';
import { isBlankLine, LINE, type LineField, UNIT, type UnitField, understand } from './form';
import { fromAgeingSheet, fromRun } from './take';

/** The ageing step: fields, what they say, and building the sheet. */
export interface Ageing {
  readonly unit: Form<UnitField>;
  readonly lines: Lines<LineField>;
  /** The measurements that are fit. */
  readonly points: ReadonlySignal<readonly Measurement[]>;
  /** The answer, or what is missing for one. */
  readonly answer: ReadonlySignal<AgeingAnswer | string>;
  readonly runs: ReadonlySignal<readonly KnownSheet[]>;
  readonly sheets: ReadonlySignal<readonly KnownSheet[]>;
  /** What the last action did or could not do. */
  readonly report: ReadonlySignal<Said>;
  snapshot(): Restore;
  /** Adds the white light output and the day of a run sheet; the hours are typed. */
  takeRun(sheet: string): Promise<void>;
  /** Puts the unit and measurements of an ageing sheet into the fields. */
  takeSheet(sheet: string): Promise<void>;
  build(): Promise<void>;
}

/** A line can be drawn through three. */
const FIRST_LINES = 3;

/** The step's state; it outlives looking at another page. */
export const ageingOf = perStore(createAgeing);

function createAgeing(store: Store): Ageing {
  const { host, workbook, troubles, makeId } = store;
  const unit = createForm(UNIT, { name: 'ageing' });
  const lines = createLines(() => createForm(LINE, { name: 'ageing' }), MOST_MEASUREMENTS, FIRST_LINES);
  const report = signal<Said>('');
  goesWith(report, () => [unit, ...lines.forms.value].map(({ texts }) => texts.value));
  const understood = computed(() =>
    understand(
      unit.texts.value,
      lines.forms.value.map(({ texts }) => texts.value),
    ),
  );
  const of = (kind: KnownSheet['kind']) =>
    computed(() => workbook.survey.value?.sheets.filter((sheet) => sheet.kind === kind) ?? []);

  /** Hours of use a year that the offers were weighed with; undefined where no sheet says, or two say otherwise. */
  async function plannedHours(): Promise<number | undefined> {
    const sheets = await host.readSome({ offers: ['HoursPerYear'] });
    const hours = new Set(sheets.map((sheet) => cellOf(sheet, 'HoursPerYear')));
    const [only] = hours;
    return hours.size === 1 && typeof only === 'number' ? only : undefined;
  }

  return {
    unit,
    lines,
    points: computed(() => understood.value.points),
    answer: computed(() => {
      const { setup } = understood.value;
      return setup ? answer(setup) : 'Some fields need another look.';
    }),
    runs: of('run'),
    sheets: of('ageing'),
    report,
    snapshot: () => {
      const restores = [unit.snapshot(), lines.snapshot()];
      return () => {
        for (const restore of restores) restore();
        report.value = '';
      };
    },
    takeRun: async (sheet) => {
      report.value = '';
      const attempt = await troubles.attempt('Reading the run sheet', () => host.read(sheet));
      if (!attempt.ok) return;
      const taken = fromRun(attempt.value);
      if (typeof taken === 'string') {
        report.value = refused(taken);
        return;
      }
      const planned = await plannedHours();
      const others = lines.forms
        .peek()
        .map(({ texts }) => texts.peek())
        .filter((line) => !isBlankLine(line));
      if (others.length >= MOST_MEASUREMENTS) {
        report.value = refused(
          `Nothing was taken: a sheet holds ${MOST_MEASUREMENTS} measurements, and so many are here.`,
        );
        return;
      }
      lines.put([...others, taken.line]);
      const { projector, serial, mode, hoursPerYear } = unit.texts.peek();
      unit.take({
        projector: projector || taken.projector,
        serial: serial || taken.serial,
        mode: mode || taken.mode,
        ...(planned === undefined || hoursPerYear !== UNIT.hoursPerYear.start
          ? {}
          : { hoursPerYear: retyped(planned) }),
      });
      const other = [
        mode && mode !== taken.mode ? `the mode \u201c${taken.mode}\u201d` : '',
        serial && serial !== taken.serial ? `the serial \u201c${taken.serial}\u201d` : '',
      ].filter(Boolean);
      report.value = `Taken from \u201c${sheet}\u201d; type the hours of its light source.${other.length > 0 ? ` Careful: it has ${other.join(' and ')}, unlike the unit above.` : ''}`;
    },
    takeSheet: async (sheet) => {
      report.value = '';
      const attempt = await troubles.attempt('Reading the ageing sheet', () => host.read(sheet));
      if (!attempt.ok) return;
      const taken = fromAgeingSheet(attempt.value);
      unit.take(taken.texts);
      lines.put(taken.lines);
      report.value = `Taken from \u201c${sheet}\u201d. What is changed here goes into a new sheet.`;
    },
    build: async () => {
      unit.showAll();
      lines.showAll();
      report.value = '';
      const { setup } = understood.peek();
      if (setup) await buildSheet(store, 'ageing sheet', () => ageingPlan(setup, makeId()));
      else
        report.value = refused(
          `Nothing was built: ${
            faultOf(unit) ||
            lines.forms
              .peek()
              .map((line) => faultOf(line))
              .find(Boolean)
          }`,
        );
    },
  };
}
