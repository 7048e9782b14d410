import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { SERIAL_MAX, serialsOf } from '../../src/procurement/lot/serials';
import type { BuiltSheet } from '../../src/sheets/built';
import { type Answers, NO_ANSWERS } from '../../src/template/answers';
import { type SheetSet, sheetSet } from '../../src/template/steps';
import type { Template } from '../../src/template/template';
import { fields } from '../form/field';
import { createForm, type Form } from '../form/form';
import type { Store } from '../store';
import { refused, type Said } from '../store/said';

/** How far a set of sheets is while it is built. */
interface Progress {
  readonly done: number;
  readonly of: number;
  /** The sheet that is being built. */
  readonly label: string;
}

/** What is asked of a person before a template is built. */
const ANSWERS = fields({
  label: {
    kind: 'text',
    label: 'Word before the names of the sheets',
    hint: 'Tells two bids in one workbook apart. Empty for none.',
  },
  serials: {
    kind: 'lines',
    rows: 4,
    label: 'Serials of every unit, one a line',
    hint: 'Empty until the lot has arrived: what needs it is then left out.',
    check: (text) => tooLong(serialsOf(text)),
  },
  lot: { kind: 'text', label: 'Lot', hint: 'As the delivery note calls it.' },
  seed: {
    kind: 'text',
    label: 'Seed of the draw',
    hint: 'Fixed in public after the list was closed, say by dice.',
  },
  drawnBy: { kind: 'text', label: 'Drawn by', hint: 'And before whom.' },
});

/** A serial that was cut would have another's ticket in the draw. */
function tooLong(serials: readonly string[]) {
  const long = serials.find((serial) => serial.length > SERIAL_MAX);
  if (long === undefined) return undefined;
  return {
    problem: `A serial has at most ${SERIAL_MAX} characters; “${long.slice(0, 40)}…” has ${long.length}.`,
  };
}

/** Building the sheets of a template, one after the other. */
export interface Applying {
  /** The template that is about to be built. */
  readonly template: ReadonlySignal<Template | undefined>;
  readonly form: Form<keyof typeof ANSWERS>;
  readonly asksForLot: ReadonlySignal<boolean>;
  /** What would be built now. */
  readonly set: ReadonlySignal<SheetSet | undefined>;
  readonly progress: ReadonlySignal<Progress | undefined>;
  readonly isStopping: ReadonlySignal<boolean>;
  readonly report: ReadonlySignal<Said>;
  choose(template: Template | undefined): void;
  build(): Promise<void>;
  /** Stops after the sheet that is being built: no sheet is left half. */
  stop(): void;
}

export function createApplying({ program, workbook, troubles, log, makeId, today }: Store): Applying {
  const template = signal<Template | undefined>(undefined);
  const form = createForm(ANSWERS, { name: 'templates' });
  const progress = signal<Progress | undefined>(undefined);
  const isStopping = signal(false);
  const report = signal<Said>('');
  const asksForLot = computed(() => {
    const sheets = template.value?.sheets;
    return Boolean(sheets && (sheets.acceptance || sheets.runs?.for === 'sample' || sheets.batch));
  });
  const answers = computed((): Answers => {
    const { label, lot, serials, seed, drawnBy } = form.texts.value;
    const cut = (text: string) => text.trim().slice(0, 120);
    const known = { ...NO_ANSWERS, label: cut(label), today };
    if (!asksForLot.value) return known;
    return {
      ...known,
      lot: cut(lot),
      serials: serialsOf(serials),
      seed: cut(seed),
      drawnBy: cut(drawnBy),
    };
  });
  const set = computed(() => template.value && sheetSet(template.value, answers.value));

  async function buildAll(title: string, { steps }: SheetSet, built: Map<string, BuiltSheet>): Promise<void> {
    for (const { key, label, make } of steps) {
      if (isStopping.peek()) break;
      progress.value = { done: built.size, of: steps.length, label };
      const plan = make(built, makeId());
      built.set(key, { ...(await program.build(plan)), plan });
    }
    const first = built.get(steps[0]!.key);
    if (first) await program.select(first.sheet, first.plan.start);
    if (built.size > 0)
      void log.note('built', '', `Template “${title}”, ${built.size} of ${steps.length} sheets`);
  }

  return {
    template,
    form,
    asksForLot,
    set,
    progress,
    isStopping,
    report,
    choose: (chosen) => {
      template.value = chosen;
      report.value = '';
    },
    build: async () => {
      const [chosen, now] = [template.peek(), set.peek()];
      if (!chosen || !now || now.steps.length === 0) return;
      const unfit = form.unfit.peek().find((id) => id === 'label' || asksForLot.peek());
      if (unfit) {
        form.showAll();
        report.value = refused(`“${ANSWERS[unfit].label}” needs another look. Nothing was built.`);
        return;
      }
      isStopping.value = false;
      report.value = '';
      const built = new Map<string, BuiltSheet>();
      const attempt = await troubles.attempt('Building the sheets of the template', () =>
        buildAll(chosen.title, now, built),
      );
      progress.value = undefined;
      report.value = said([...built.values()], now.steps.length, attempt.ok);
      await workbook.look();
    },
    stop: () => {
      isStopping.value = true;
    },
  };
}

/** What became of it; sheets that are there are named, since they are complete and stay. */
function said(built: readonly BuiltSheet[], of: number, isOk: boolean): Said {
  const names = built.map(({ sheet }) => `“${sheet}”`).join(', ');
  if (built.length === of) return `Built ${of} ${of === 1 ? 'sheet' : 'sheets'}: ${names}.`;
  if (built.length === 0) return refused('Nothing was built.');
  const are = built.length === 1 ? 'This one is complete and stays' : 'These are complete and stay';
  return `${isOk ? 'Stopped' : 'Broken off'} after ${built.length} of ${of} sheets: ${names}. ${are}; the others were not begun.`;
}
