import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { DecimalMark } from '../parse/number';
import { retyped } from '../parse/quantity';
import type { FieldTable, Reads, Texts } from './field';
import { readAll, startOf, unfitIn } from './read';

/** Puts a form back to how it was. */
export type Restore = () => void;

/** The fields of one form: what is typed stays as typed, and is read at every key. */
export interface Form<K extends string> {
  /** Tells forms apart while others above them go. */
  readonly key: number;
  /** Begins the ids of its controls. */
  readonly name: string;
  readonly table: FieldTable<K>;
  readonly texts: ReadonlySignal<Texts<K>>;
  readonly reads: ReadonlySignal<Reads<K>>;
  /** Fields with a problem or a question, in the form's order. */
  readonly unfit: ReadonlySignal<readonly K[]>;
  /** Whether what is wrong with a field is said: once it was left, or after an attempt to build. */
  isShown(id: K): boolean;
  /** Whether something is said to be wrong with a field. */
  isWrong(id: K): boolean;
  type(id: K, text: string): void;
  leave(id: K): void;
  /** Which decimal mark was meant in a field: the answer takes the place of what was typed. */
  decide(id: K, mark: DecimalMark): void;
  /** Takes over the unit that was typed with a length. */
  useUnit(id: K): void;
  /** Fills in what is known; numbers among it as `retyped` writes them, so that nobody is asked what they mean. */
  take(known: Partial<Texts<K>>): void;
  showAll(): void;
  /** How the form stands now; calling what comes back puts it so again. */
  snapshot(): Restore;
}

export interface FormOptions<K extends string> {
  readonly name: string;
  /** What the fields hold at first, where it is not what the table says. */
  readonly start?: Texts<K>;
  /** Hears of every field that a person changes. */
  readonly onType?: (id: K) => void;
}

/** “Seed” needs another look: where the first fault of a form is; empty where there is none. */
export function faultOf<K extends string>({ table, unfit }: Form<K>): string {
  const [first] = unfit.peek();
  return first ? `“${table[first].label}” needs another look.` : '';
}

let made = 0;

export function createForm<K extends string>(
  table: FieldTable<K>,
  { name, start = startOf(table), onType }: FormOptions<K>,
): Form<K> {
  const texts = signal(start);
  const left = signal<ReadonlySet<K>>(new Set());
  const isAllShown = signal(false);
  const reads = computed(() => readAll(table, texts.value));
  const unfit = computed(() => unfitIn(reads.value));
  // A list is pasted and not typed: what is wrong with it is said at once.
  const isPasted = (id: K) => table[id].kind === 'lines' && texts.value[id].trim() !== '';
  const isShown = (id: K) => isAllShown.value || left.value.has(id) || isPasted(id);

  function type(id: K, text: string): void {
    texts.value = { ...texts.peek(), [id]: text };
    onType?.(id);
  }
  function leave(...ids: readonly K[]): void {
    if (ids.some((id) => !left.peek().has(id))) left.value = new Set([...left.peek(), ...ids]);
  }

  return {
    key: ++made,
    name,
    table,
    texts,
    reads,
    unfit,
    isShown,
    isWrong: (id) => isShown(id) && unfit.value.includes(id),
    type,
    leave,
    decide: (id, mark) => {
      const { question } = reads.peek()[id];
      if (question) type(id, retyped(question[mark]));
    },
    useUnit: (id) => {
      const { unitIn } = table[id];
      const { otherUnit } = reads.peek()[id];
      if (!unitIn || !otherUnit) return;
      type(id, retyped(otherUnit.value));
      type(unitIn, otherUnit.unit);
    },
    take: (known) => {
      texts.value = { ...texts.peek(), ...known };
      leave(...(Object.keys(known) as K[]).filter((id) => texts.peek()[id].trim() !== ''));
    },
    showAll: () => {
      isAllShown.value = true;
    },
    snapshot: () => {
      const before = texts.peek();
      return () => {
        texts.value = before;
        left.value = new Set();
        isAllShown.value = false;
      };
    },
  };
}
