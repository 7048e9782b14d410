import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { KnownSheet } from '../../src/excel/host';
import { ageingPlan } from '../../src/sheets/ageing';
import { defaultAgeing, MOST_MEASUREMENTS } from '../../src/sheets/ageing/setup';
import type { Store } from '../store';
import { perStore } from '../store/perstore';
import { refused, type Said } from '../store/said';
import { type AgeingAnswer, answer } from './answer';
import {
  type AgeingTexts,
  EMPTY_LINE,
  isBlankLine,
  type LineField,
  type LineTexts,
  type Understood,
  understand,
} from './form';
import { fromAgeingSheet, fromRun } from './take';

/** The ageing step: fields, what they say, and building the sheet. */
export interface Ageing {
  readonly texts: ReadonlySignal<AgeingTexts>;
  readonly lines: ReadonlySignal<readonly LineTexts[]>;
  readonly understood: ReadonlySignal<Understood>;
  /** The answer, or what is missing for one. */
  readonly answer: ReadonlySignal<AgeingAnswer | string>;
  /** Whether errors of fields not yet typed in are shown. */
  readonly isAllShown: ReadonlySignal<boolean>;
  readonly runs: ReadonlySignal<readonly KnownSheet[]>;
  readonly sheets: ReadonlySignal<readonly KnownSheet[]>;
  /** What the last action did or could not do. */
  readonly report: ReadonlySignal<Said>;
  /** How the form stands now; calling what comes back puts it so again. */
  snapshot(): () => void;
  type(id: keyof AgeingTexts, text: string): void;
  typeLine(at: number, id: LineField, text: string): void;
  addLine(): void;
  dropLine(at: number): void;
  /** Adds the white light output and the day of a run sheet; the hours are typed. */
  takeRun(sheet: string): Promise<void>;
  /** Puts the unit and measurements of an ageing sheet into the fields. */
  takeSheet(sheet: string): Promise<void>;
  build(): Promise<void>;
}

/** The step's state; it outlives looking at another page. */
export const ageingOf = perStore(createAgeing);

function startTexts(): AgeingTexts {
  const { hoursPerYear, level } = defaultAgeing();
  return {
    projector: '',
    serial: '',
    mode: '',
    needed: '',
    stated: '',
    hoursPerYear: String(hoursPerYear),
    level: String(Number((level * 100).toPrecision(6))),
  };
}

function createAgeing({ host, workbook, troubles, front, makeId }: Store): Ageing {
  const texts = signal(startTexts());
  const lines = signal<readonly LineTexts[]>([EMPTY_LINE, EMPTY_LINE, EMPTY_LINE]);
  const isAllShown = signal(false);
  const report = signal<Said>('');
  const understood = computed(() => understand(texts.value, lines.value));
  const of = (kind: KnownSheet['kind']) =>
    computed(() => workbook.survey.value?.sheets.filter((sheet) => sheet.kind === kind) ?? []);
  return {
    texts,
    lines,
    understood,
    answer: computed(() =>
      understood.value.isFit ? answer(understood.value.setup) : 'Some fields need another look.',
    ),
    isAllShown,
    runs: of('run'),
    sheets: of('ageing'),
    report,
    snapshot: () => {
      const [before, measured] = [texts.peek(), lines.peek()];
      return () => {
        texts.value = before;
        lines.value = measured;
        isAllShown.value = false;
        report.value = '';
      };
    },
    type: (id, text) => {
      texts.value = { ...texts.value, [id]: text };
    },
    typeLine: (at, id, text) => {
      lines.value = lines.value.map((line, i) => (i === at ? { ...line, [id]: text } : line));
    },
    addLine: () => {
      if (lines.value.length < MOST_MEASUREMENTS) lines.value = [...lines.value, EMPTY_LINE];
    },
    dropLine: (at) => {
      lines.value = lines.value.filter((_, i) => i !== at);
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
      const others = lines.value.filter((line) => !isBlankLine(line));
      if (others.length >= MOST_MEASUREMENTS) {
        report.value = refused(
          `Nothing was taken: a sheet holds ${MOST_MEASUREMENTS} measurements, and so many are here.`,
        );
        return;
      }
      lines.value = [...others, taken.line];
      const { projector, serial, mode } = texts.value;
      texts.value = {
        ...texts.value,
        projector: projector || taken.projector,
        serial: serial || taken.serial,
        mode: mode || taken.mode,
      };
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
      texts.value = taken.texts;
      lines.value = taken.lines;
      report.value = `Taken from \u201c${sheet}\u201d. What is changed here goes into a new sheet.`;
    },
    build: async () => {
      isAllShown.value = true;
      report.value = '';
      const { isFit, setup } = understood.value;
      if (!isFit) {
        report.value = refused('Nothing was built: some fields need another look.');
        return;
      }
      const attempt = await troubles.attempt('Building the ageing sheet', () =>
        host.build(ageingPlan(setup, makeId())),
      );
      await workbook.look();
      if (attempt.ok) front.arrive(`Built the sheet \u201c${attempt.value.sheet}\u201d.`);
    },
  };
}
