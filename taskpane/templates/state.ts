import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import { checkTemplate } from '../../src/template/read';
import { FORMAT, VERSION } from '../../src/template/schema';
import type { Template } from '../../src/template/template';
import { createForm, type Form } from '../form/form';
import type { Store } from '../store';
import { perStore } from '../store/perstore';
import { refused, type Said } from '../store/said';
import { type Applying, createApplying } from './applying';
import { sheetsOf, TEMPLATE, type TemplateField } from './choice';
import { type Collected, collect, editedParagraphs, PARAGRAPH_NAMES } from './collect';
import { createImporting, type Importing } from './importing';
import { createKeeping, type Keeping } from './keeping';
import { takeSheets } from './takesheets';

/** The templates step: what the workbook keeps, saving the set-up of the steps, import, and building. */
export interface TemplatesStep {
  readonly keeping: Keeping;
  readonly applying: Applying;
  readonly importing: Importing;
  readonly form: Form<TemplateField>;
  /** What the other steps hold that a template takes. */
  readonly collected: ReadonlySignal<Collected>;
  /** The template that would be saved, or what is in its way. */
  readonly draft: ReadonlySignal<Template | readonly string[]>;
  readonly isAllShown: ReadonlySignal<boolean>;
  /** Paragraphs of the need sheet that differ from what the fields of the step Need would write. */
  readonly otherWords: ReadonlySignal<
    { readonly sheet: string; readonly parts: readonly string[] } | undefined
  >;
  readonly keepsWords: ReadonlySignal<boolean>;
  keepWords(keeps: boolean): void;
  /** Fills the forms from the sheets of this workbook: a bid that was done is the best set-up of the next. */
  takeSheets(): Promise<void>;
  /** What was taken from which sheets. */
  readonly takenFrom: ReadonlySignal<Said>;
  save(): Promise<void>;
}

export const templatesOf = perStore(createTemplates);

function createTemplates(store: Store): TemplatesStep {
  const { host, workbook, page, troubles } = store;
  const keeping = createKeeping(store);
  const applying = createApplying(store);
  const form = createForm(TEMPLATE, { name: 'templates' });
  const isAllShown = signal(false);
  const takenFrom = signal<Said>('');
  const need = signal<SheetReading | undefined>(undefined);
  let looks = 0;
  const keepsWords = signal(false);
  // Words that somebody edited on the need sheet may belong to the set-up; they stand nowhere else.
  effect(() => {
    const survey = workbook.survey.value;
    if (!survey || page.value !== 'templates' || troubles.busy.value !== '') return;
    const own = ++looks;
    host
      .readSome({ need: PARAGRAPH_NAMES })
      .then((found) => {
        if (own === looks) need.value = found.find((one) => Object.keys(one.values).length > 0);
      })
      .catch(() => {
        // Without the words of the sheet those of the fields are taken; the look itself tells of a trouble.
      });
  });
  const otherWords = computed(() => {
    const parts = need.value ? Object.keys(editedParagraphs(store, need.value)) : [];
    return parts.length > 0 ? { sheet: need.value!.sheet, parts } : undefined;
  });
  const collected = computed(() => collect(store, keepsWords.value ? need.value : undefined));
  const draft = computed((): Template | readonly string[] => {
    const [texts, reads] = [form.texts.value, form.reads.value];
    const unfit = form.unfit.value.flatMap((id) => reads[id].problem ?? reads[id].question?.message ?? []);
    const problems = [...unfit, ...collected.value.problems];
    if (problems.length > 0) return problems;
    const found = checkTemplate({
      format: FORMAT,
      version: VERSION,
      title: texts.title,
      note: texts.note,
      ...collected.value.parts,
      sheets: sheetsOf(texts, reads),
    });
    return found.ok ? found.template : found.problems;
  });

  return {
    keeping,
    applying,
    importing: createImporting(),
    form,
    collected,
    draft,
    isAllShown,
    otherWords,
    keepsWords,
    keepWords: (keeps) => {
      keepsWords.value = keeps;
    },
    takenFrom,
    takeSheets: async () => {
      takenFrom.value = '';
      const attempt = await troubles.attempt('Reading the sheets', () => takeSheets(store));
      if (!attempt.ok) return;
      const { words, sheets } = attempt.value;
      form.take(sheets);
      takenFrom.value =
        words.length > 0
          ? `Taken: ${words.join('; ')}.`
          : refused(
              'There is no sheet to take a set-up from: fill in the forms under New, or import a template.',
            );
    },
    save: async () => {
      isAllShown.value = true;
      form.showAll();
      const now = draft.peek();
      if (!('format' in now)) return;
      if (await keeping.keep(now)) isAllShown.value = false;
    },
  };
}
