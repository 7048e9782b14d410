import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { RunSetup } from '../../src/sheets/runsetup';
import { TEXT_MAX } from '../../src/sheets/setup/fields';
import type { DecimalMark } from '../parse/number';
import { shown } from '../parse/quantity';
import { isLengthUnit } from '../parse/units';
import { assemble, assembleImage, type Checks } from './assemble';
import { checkField } from './check';
import type { FieldId, Texts } from './field';
import { FIELD_IDS, FIELDS } from './fields';
import { type Picture, pictureOf } from './picture';
import { startTexts } from './start';

/** The set-up form: what is typed stays as typed, and is checked at every key. */
export interface Form {
  readonly texts: ReadonlySignal<Texts>;
  readonly checks: ReadonlySignal<Checks>;
  readonly setup: ReadonlySignal<RunSetup | undefined>;
  readonly picture: ReadonlySignal<Picture | { readonly problem: string } | undefined>;
  /** Fields whose errors are shown: those left once, or all after an attempt to build. */
  readonly isShown: (id: FieldId) => boolean;
  /** Fields with an error or a question, in the form's order. */
  readonly unfit: ReadonlySignal<readonly FieldId[]>;
  type(id: FieldId, text: string): void;
  leave(id: FieldId): void;
  /** Answers which decimal mark was meant in a field. */
  decide(id: FieldId, mark: DecimalMark): void;
  /** Takes over the unit that was typed with a length. */
  useUnit(id: FieldId): void;
  /** Shows every error. */
  showAll(): void;
  /** How the form stands now; calling what comes back puts it so again. */
  snapshot(): () => void;
  /** Takes texts that were numbers before: their point is a decimal point. */
  take(taken: Partial<Record<FieldId, string>>): void;
  /** Puts back remembered texts, but never over something that was typed. */
  recall(kept: unknown): void;
  /** What to remember for the next time. */
  keep(): Partial<Record<FieldId, string>>;
}

export function createForm(today: string): Form {
  const texts = signal<Texts>(startTexts(today));
  const marks = signal<Partial<Record<FieldId, DecimalMark>>>({});
  const left = signal<ReadonlySet<FieldId>>(new Set());
  const isAllShown: Signal<boolean> = signal(false);
  const typed = new Set<FieldId>();

  const checks = computed(
    () =>
      Object.fromEntries(
        FIELD_IDS.map((id) => [id, checkField(id, texts.value, marks.value[id])]),
      ) as unknown as Checks,
  );
  const picture = computed(() => {
    const image = assembleImage(texts.value, checks.value);
    return image && pictureOf(image, texts.value.corners === 'yes');
  });
  const setup = computed(() => {
    const isImpossible = picture.value !== undefined && 'problem' in picture.value;
    return isImpossible ? undefined : assemble(texts.value, checks.value);
  });

  function put(id: FieldId, text: string): void {
    texts.value = { ...texts.value, [id]: text };
  }

  return {
    texts,
    checks,
    setup,
    picture,
    unfit: computed(() => FIELD_IDS.filter((id) => checks.value[id].error || checks.value[id].question)),
    isShown: (id) => isAllShown.value || left.value.has(id),
    type: (id, text) => {
      typed.add(id);
      put(id, text);
      if (marks.peek()[id]) marks.value = { ...marks.peek(), [id]: undefined };
    },
    leave: (id) => {
      if (!left.peek().has(id)) left.value = new Set([...left.peek(), id]);
    },
    decide: (id, mark) => {
      marks.value = { ...marks.value, [id]: mark };
    },
    useUnit: (id) => {
      const other = checks.value[id].otherUnit;
      if (!other || !isLengthUnit(other.unit)) return;
      texts.value = { ...texts.value, [id]: shown(other.value), lengthUnit: other.unit };
      typed.add('lengthUnit');
    },
    snapshot: () => {
      const [before, marked] = [texts.peek(), marks.peek()];
      return () => {
        texts.value = before;
        marks.value = marked;
        left.value = new Set();
        isAllShown.value = false;
      };
    },
    take: (taken) => {
      const ids = FIELD_IDS.filter((id) => taken[id] !== undefined);
      for (const id of ids) typed.add(id);
      texts.value = { ...texts.value, ...taken };
      marks.value = { ...marks.value, ...Object.fromEntries(ids.map((id) => [id, 'point' as const])) };
    },
    showAll: () => {
      isAllShown.value = true;
    },
    recall: (kept) => {
      if (typeof kept !== 'object' || kept === null) return;
      for (const [key, text] of Object.entries(kept)) {
        const id = FIELD_IDS.find((known) => known === key);
        if (id && FIELDS[id].isKept && !typed.has(id) && isRecallable(id, text)) put(id, text);
      }
    },
    keep: () =>
      Object.fromEntries(FIELD_IDS.filter((id) => FIELDS[id].isKept).map((id) => [id, texts.value[id]])),
  };
}

/** What the browser kept may be of an older form or of another hand: a choice must still be one. */
function isRecallable(id: FieldId, text: unknown): text is string {
  if (typeof text !== 'string' || text.length > TEXT_MAX) return false;
  const spec = FIELDS[id];
  return spec.kind !== 'choice' || spec.choices.some(([value]) => value === text);
}
