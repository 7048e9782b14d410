import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { KnownSheet } from '../../src/excel/host';
import { acceptancePlan } from '../../src/sheets/acceptance';
import type { Store } from '../store';
import { certify } from './certify';
import { type LotTexts, type LotUnderstood, START, understandLot } from './form';
import { resultsFor } from './results';

/** The acceptance step: the lot, its draw, and results from runs. */
export interface Accept {
  readonly texts: ReadonlySignal<LotTexts>;
  readonly understood: ReadonlySignal<LotUnderstood>;
  readonly isAllShown: ReadonlySignal<boolean>;
  readonly sheets: ReadonlySignal<readonly KnownSheet[]>;
  readonly report: ReadonlySignal<string>;
  /** What stands on a lot's sheet after its results were taken. */
  readonly taken: ReadonlySignal<readonly string[]>;
  type(id: keyof LotTexts, text: string): void;
  build(): Promise<void>;
  /** Writes the results of run sheets with a serial of the lot into its lines. */
  takeResults(sheet: string): Promise<void>;
  readonly issuedBy: ReadonlySignal<string>;
  /** What became of the certificate asked for last. */
  readonly certified: ReadonlySignal<string>;
  typeIssuedBy(text: string): void;
  /** Builds the certificate of a run. */
  certify(sheet: string): Promise<void>;
}

const kept = new WeakMap<Store, Accept>();

/** The step's state; it outlives looking at another page. */
export function acceptOf(store: Store): Accept {
  const found = kept.get(store) ?? createAccept(store);
  kept.set(store, found);
  return found;
}

function createAccept({ host, workbook, troubles, makeId, today }: Store): Accept {
  const texts = signal(START);
  const isAllShown = signal(false);
  const report = signal('');
  const taken = signal<readonly string[]>([]);
  const issuedBy = signal('');
  const certified = signal('');
  const understood = computed(() => understandLot(texts.value, today));

  async function write(sheet: string): Promise<string[]> {
    const lot = await host.read(sheet);
    const runs = [];
    for (const run of workbook.runs.peek()) runs.push(await host.read(run.sheet));
    const found = resultsFor(lot, runs);
    if (found.taken > 0)
      for (const [name, values] of Object.entries(found.columns)) await host.write(sheet, name, values);
    const done = `${found.taken} of ${runs.length} runs belong to this lot and have a result; written to \u201c${sheet}\u201d.`;
    const { values } = await host.read(sheet);
    const sentence = values.LotSentence?.values[0]?.[0];
    return [done, ...found.remarks, ...(typeof sentence === 'string' ? [sentence] : [])];
  }

  return {
    texts,
    understood,
    isAllShown,
    sheets: computed(() => workbook.survey.value?.sheets.filter(({ kind }) => kind === 'acceptance') ?? []),
    report,
    taken,
    type: (id, text) => {
      texts.value = { ...texts.value, [id]: text };
    },
    build: async () => {
      isAllShown.value = true;
      report.value = '';
      const { drawn, objection } = understood.value;
      if (!drawn) {
        report.value = `Nothing was built: ${objection || 'some fields need another look.'}`;
        return;
      }
      const attempt = await troubles.attempt('Building the acceptance sheet', () =>
        host.build(acceptancePlan(drawn, makeId())),
      );
      if (attempt.ok)
        report.value = `Built the sheet \u201c${attempt.value.sheet}\u201d with the draw recorded.`;
      await workbook.look();
    },
    takeResults: async (sheet) => {
      taken.value = [];
      const attempt = await troubles.attempt('Taking the results', () => write(sheet));
      if (attempt.ok) taken.value = attempt.value;
      await workbook.look();
    },
    issuedBy,
    certified,
    typeIssuedBy: (text) => {
      issuedBy.value = text.slice(0, 120);
    },
    certify: async (sheet) => {
      certified.value = '';
      const attempt = await troubles.attempt('Building the certificate', async () =>
        host.build(certify(await host.read(sheet), issuedBy.value.trim(), makeId())),
      );
      if (attempt.ok) certified.value = `Built the sheet \u201c${attempt.value.sheet}\u201d.`;
      await workbook.look();
    },
  };
}
