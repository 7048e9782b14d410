import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { DecimalMark } from '../parse/number';
import { retyped } from '../parse/quantity';
import { decode } from './decode';
import type { OfferField, OfferTexts } from './fields';
import { assign, type Mapping } from './mapping';
import { type Imported, readRows } from './rows';
import { type OffersTable, readTable, TEXT_MAX } from './table';

/** Offers from a file or a pasted text: taken apart, mapped, looked at, and only then taken. */
export interface Importing {
  readonly text: ReadonlySignal<string>;
  /** About the file: how it was read, or why it could not be. */
  readonly note: ReadonlySignal<string>;
  /** The table, or why the text is none. */
  readonly table: ReadonlySignal<OffersTable | string>;
  readonly mapping: ReadonlySignal<Mapping>;
  readonly hasHeadings: ReadonlySignal<boolean>;
  readonly imported: ReadonlySignal<Imported | undefined>;
  /** What the last import did. */
  readonly report: ReadonlySignal<string>;
  paste(text: string): void;
  choose(file: File): Promise<void>;
  map(column: number, field: OfferField | undefined): void;
  setHeadings(has: boolean): void;
  decide(mark: DecimalMark): void;
  /** Takes the clean rows. */
  take(): void;
  /** Takes nothing and forgets the text. */
  cancel(): void;
}

/** `take` is given the texts of the clean rows and says how many of them found room. */
export function createImporting(take: (rows: readonly OfferTexts[]) => string): Importing {
  const text = signal('');
  const note = signal('');
  const report = signal('');
  const chosenMapping = signal<Mapping | undefined>(undefined);
  const chosenHeadings = signal<boolean | undefined>(undefined);
  const mark = signal<DecimalMark | undefined>(undefined);
  const table = computed(() => readTable(text.value));
  const mapping = computed(
    () => chosenMapping.value ?? (typeof table.value === 'string' ? [] : table.value.mapping),
  );
  const hasHeadings = computed(
    () => chosenHeadings.value ?? (typeof table.value !== 'string' && table.value.hasHeadings),
  );
  const imported = computed(() =>
    typeof table.value === 'string'
      ? undefined
      : readRows(table.value, mapping.value, hasHeadings.value, mark.value),
  );

  /** Counts the texts: a file that is still read is an earlier one. */
  let texts = 0;

  function put(next: string, about = ''): void {
    texts++;
    text.value = next;
    note.value = about;
    report.value = '';
    chosenMapping.value = undefined;
    chosenHeadings.value = undefined;
    mark.value = undefined;
  }

  return {
    text,
    note,
    table,
    mapping,
    hasHeadings,
    imported,
    report,
    paste: (next) => put(next),
    choose: async (file) => {
      if (file.size > 2 * TEXT_MAX) {
        put('', `“${file.name}” is too large for a list of offers.`);
        return;
      }
      const own = ++texts;
      try {
        const found = decode(new Uint8Array(await file.arrayBuffer()));
        if (own !== texts) return;
        put(found.text, [`Read “${file.name}”.`, found.note].filter(Boolean).join(' '));
      } catch (error) {
        if (own !== texts) return;
        // The file went away or is not readable: say so; nothing else depends on it.
        put(
          '',
          `“${file.name}” could not be read: ${error instanceof Error ? error.message : String(error)}`,
        );
      }
    },
    map: (column, field) => {
      chosenMapping.value = assign(mapping.value, column, field);
      mark.value = undefined;
    },
    setHeadings: (has) => {
      chosenHeadings.value = has;
    },
    decide: (answer) => {
      mark.value = answer;
    },
    take: () => {
      const found = imported.value;
      if (!found || found.question || found.objection) return;
      const marked = found.rows.filter(({ offer }) => offer).map((row) => plainTexts(row));
      const said = take(marked);
      put('');
      report.value = said;
    },
    cancel: () => {
      put('');
      report.value = 'Nothing was imported.';
    },
  };
}

/** The texts with their numbers written plainly, so that they mean the same without the file around them. */
function plainTexts({ texts, offer }: Imported['rows'][number]): OfferTexts {
  const plain: Record<string, string> = { ...texts };
  for (const [id, value] of Object.entries(offer ?? {}))
    if (typeof value === 'number') plain[id] = retyped(value);
  return plain as OfferTexts;
}
