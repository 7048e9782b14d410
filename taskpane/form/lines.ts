import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { Texts } from './field';
import type { Form, Restore } from './form';

/** Forms of one table below each other, as many as a person wants and a sheet has room for; always one at least. */
export interface Lines<K extends string> {
  readonly forms: ReadonlySignal<readonly Form<K>[]>;
  readonly isFull: ReadonlySignal<boolean>;
  add(): void;
  drop(form: Form<K>): void;
  /** Puts others in the place of all. */
  put(lines: readonly Partial<Texts<K>>[]): void;
  showAll(): void;
  snapshot(): Restore;
}

/** @param first how many empty ones there are at first */
export function createLines<K extends string>(make: () => Form<K>, most: number, first = 1): Lines<K> {
  const forms = signal<readonly Form<K>[]>(Array.from({ length: first }, make));
  const keep = (some: readonly Form<K>[]) => {
    forms.value = some.length > 0 ? some : [make()];
  };
  const isFull = computed(() => forms.value.length >= most);
  return {
    forms,
    isFull,
    add: () => {
      if (!isFull.peek()) keep([...forms.peek(), make()]);
    },
    drop: (form) => keep(forms.peek().filter((one) => one !== form)),
    put: (lines) =>
      keep(
        lines.map((texts) => {
          const form = make();
          form.take(texts);
          return form;
        }),
      ),
    showAll: () => {
      for (const form of forms.peek()) form.showAll();
    },
    snapshot: () => {
      const before = forms.peek();
      const restores = before.map((form) => form.snapshot());
      return () => {
        forms.value = before;
        for (const restore of restores) restore();
      };
    },
  };
}
