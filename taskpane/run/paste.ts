import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { ILLUMINANCE_UNITS } from '../../src/photometry/units';
import type { CellValue } from '../../src/sheets/book';
import { type Block, countOf, isReady, type Pasted, readBlock } from '../parse/block';
import type { Entry } from '../parse/cell';
import type { Decisions, Turn } from '../parse/target';
import { perStore } from '../store/perstore';
import type { Store } from '../store/type';
import { fieldsOf, mainFields, type RunField } from './fields';
import { progressOf } from './progress';

/** What a block of readings can be pasted into. */
interface PasteChoice {
  readonly id: string;
  readonly words: string;
  readonly fields: readonly RunField[];
}

/** A block of readings on its way to the run in front. */
interface Paste {
  readonly text: ReadonlySignal<string>;
  readonly choices: ReadonlySignal<readonly PasteChoice[]>;
  readonly chosen: ReadonlySignal<PasteChoice | undefined>;
  /** The text as understood; undefined while nothing was pasted. */
  readonly pasted: ReadonlySignal<Pasted | undefined>;
  readonly isReady: ReadonlySignal<boolean>;
  /** How the rows of the image were walked. */
  readonly turn: ReadonlySignal<Turn>;
  /** Cells of the sheet that hold something and would be overwritten. */
  readonly replaced: ReadonlySignal<number>;
  /** What the last write did. */
  readonly report: ReadonlySignal<string>;
  type(text: string): void;
  choose(id: string): void;
  decide(decisions: Decisions): void;
  write(): Promise<void>;
}

/** What was pasted outlives looking at another page. */
export const pasteOf = perStore(createPaste);

function createPaste({ host, workbook, troubles, log }: Store): Paste {
  const text = signal('');
  const choice = signal('');
  const decisions = signal<Decisions>({});
  const report = signal('');
  const commaFirst = host.facts().decimalComma;

  const choices = computed(() => {
    const reading = workbook.reading.value;
    return reading ? choicesOf(fieldsOf(reading)) : [];
  });
  const chosen = computed(() => choices.value.find(({ id }) => id === choice.value) ?? choices.value[0]);
  const unit = computed(() => {
    const value = workbook.reading.value?.values.MeterUnit?.values[0]?.[0];
    return ILLUMINANCE_UNITS.find((known) => known === value) ?? 'lx';
  });
  const pasted = computed(() =>
    chosen.value && text.value.trim() !== ''
      ? readBlock(text.value, chosen.value.fields, unit.value, decisions.value, commaFirst)
      : undefined,
  );
  const ready = computed(() => pasted.value !== undefined && isReady(pasted.value));
  const replaced = computed(() => {
    const reading = workbook.reading.value;
    return reading && chosen.value
      ? chosen.value.fields.reduce((sum, field) => sum + progressOf(field, reading).filled, 0)
      : 0;
  });

  return {
    text,
    choices,
    chosen,
    pasted,
    isReady: ready,
    turn: computed(() => decisions.value.turn ?? 'from the left'),
    replaced,
    report,
    type: (typed) => {
      text.value = typed;
      // Answers belong to the text they were asked about.
      decisions.value = {};
      report.value = '';
    },
    choose: (id) => {
      choice.value = id;
      report.value = '';
    },
    decide: (answer) => {
      decisions.value = { ...decisions.value, ...answer };
    },
    write: async () => {
      const sheet = workbook.reading.value?.sheet;
      if (!sheet || !ready.value) return;
      const { blocks } = pasted.value!;
      const sent = text.peek();
      const written: Block[] = [];
      const attempt = await troubles.attempt('Writing the readings', async () => {
        for (const block of blocks) {
          await host.write(sheet, block.target.name, cellsToWrite(block.entries));
          written.push(block);
        }
      });
      report.value = reportOf(sheet, written, blocks);
      if (written.length > 0) void log.note('pasted', sheet, report.value);
      // What was not taken stays with its answers, and what was typed meanwhile is another text.
      if (attempt.ok && text.peek() === sent) {
        text.value = '';
        decisions.value = {};
      }
      await workbook.look();
    },
  };
}

function choicesOf(fields: readonly RunField[]): PasteChoice[] {
  const main = mainFields(fields);
  // As guided capture asks for them: field after field, with their repeats.
  const several = main.length > 1 ? [{ id: 'all', words: `${list(main)} at once`, fields: main }] : [];
  const whole = fields.length > 1 && fields.length > main.length;
  return [
    ...several,
    ...(whole ? [{ id: 'order', words: 'Everything, in the order of measuring', fields }] : []),
    ...fields.map((field) => ({ id: field.name, words: upper(field.label), fields: [field] })),
  ];
}

/** "White, red, green and blue". */
function list(fields: readonly RunField[]): string {
  const labels = fields.map(({ label }) => label);
  return upper(`${labels.slice(0, -1).join(', ')} and ${labels.at(-1)}`);
}

function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** An empty cell of the block leaves the sheet's cell as it is. */
function cellsToWrite(entries: readonly (readonly Entry[])[]): CellValue[][] {
  return entries.map((row) =>
    row.map((entry) => {
      if (entry.kind === 'number') return entry.value;
      return entry.kind === 'over' ? 'over' : null;
    }),
  );
}

function reportOf(sheet: string, written: readonly Block[], wanted: readonly Block[]): string {
  if (written.length === 0) return '';
  const cells = countOf(written, 'number', 'over');
  const done = `${cells} ${cells === 1 ? 'cell' : 'cells'} written to \u201c${sheet}\u201d.`;
  if (written.length === wanted.length) return done;
  const missed = wanted.slice(written.length).map(({ target }) => target.label);
  return `${done} Not written: ${missed.join(', ')}.`;
}
