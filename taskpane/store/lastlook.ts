import { computed, type ReadonlySignal, type Signal } from '@preact/signals';
import { HostError, type KnownSheet, type Survey } from '../../src/excel/host';
import type { SheetKind } from '../../src/sheets/plan';
import type { Front } from './front';
import { type Trouble, troubleOf } from './trouble';

export interface LastLook<T> {
  /** What is being done, for a trouble: `Reading the comparison`. */
  readonly what: string;
  readonly trouble: Signal<Trouble | undefined>;
  /** Takes what was found; undefined where it could not be had. */
  readonly take: (found: T | undefined) => void;
  /** Whether what was found before is still good when a look fails. */
  readonly isKept?: boolean;
}

/**
 * Looks at the workbook again and again; only the last look counts. While the host is busy nothing is said: the
 * workbook looks again by itself when it is free, and this with it.
 */
export function lastLook<About extends readonly unknown[], T>(
  ask: (...about: About) => Promise<T>,
  { what, trouble, take, isKept = false }: LastLook<T>,
): (...about: About) => Promise<void> {
  let looks = 0;
  return async (...about) => {
    const own = ++looks;
    try {
      const found = await ask(...about);
      if (own !== looks) return;
      take(found);
      trouble.value = undefined;
    } catch (error) {
      if (own !== looks) return;
      if (error instanceof HostError && (error.trouble === 'editing' || error.trouble === 'busy')) return;
      if (!isKept) take(undefined);
      trouble.value = troubleOf(error, what);
    }
  };
}

/** The sheets of one kind, and the one to show: the one looked at, else one picked, else the one in front, else the last. */
export function sheetsOf(
  survey: ReadonlySignal<Survey | undefined>,
  kind: SheetKind,
  picked: ReadonlySignal<string | undefined>,
  front: Front,
): { sheets: ReadonlySignal<readonly KnownSheet[]>; shown: ReadonlySignal<string | undefined> } {
  const sheets = computed(() => survey.value?.sheets.filter((sheet) => sheet.kind === kind) ?? []);
  const shown = computed(() => {
    const has = (name: string | undefined) => sheets.value.find(({ sheet }) => sheet === name)?.sheet;
    const looked = front.isOf(kind) ? front.sheet.value?.sheet : undefined;
    return has(looked) ?? has(picked.value) ?? has(survey.value?.active) ?? sheets.value.at(-1)?.sheet;
  });
  return { sheets, shown };
}
