import { computed, type ReadonlySignal } from '@preact/signals';
import type { RunSetup } from '../../src/sheets/runsetup';
import { TEXT_MAX } from '../../src/sheets/setup/fields';
import { choicesOf } from '../form/field';
import { createForm, type Form } from '../form/form';
import { assemble, assembleImage } from './assemble';
import type { FieldId } from './field';
import { FIELD_IDS, FIELDS } from './fields';
import { type Picture, pictureOf } from './picture';
import { startTexts } from './start';

/** The set-up of a run; other steps take the meter, the image or all of it from here. */
export interface SetupForm extends Form<FieldId> {
  readonly setup: ReadonlySignal<RunSetup | undefined>;
  readonly picture: ReadonlySignal<Picture | { readonly problem: string } | undefined>;
  /** Puts back remembered texts, but never over something that was typed. */
  recall(kept: unknown): void;
  /** What to remember for the next time. */
  keep(): Partial<Record<FieldId, string>>;
}

export function createSetupForm(today: string): SetupForm {
  const typed = new Set<FieldId>();
  const form = createForm(FIELDS, {
    name: 'field',
    start: startTexts(today),
    onType: (id) => typed.add(id),
  });
  const { texts, reads, take } = form;
  const picture = computed(() => {
    const image = assembleImage(texts.value, reads.value);
    return image && pictureOf(image, texts.value.corners === 'yes');
  });
  return {
    ...form,
    picture,
    setup: computed(() => {
      const isImpossible = picture.value !== undefined && 'problem' in picture.value;
      return isImpossible ? undefined : assemble(texts.value, reads.value);
    }),
    take: (known) => {
      for (const id of FIELD_IDS) if (known[id] !== undefined) typed.add(id);
      take(known);
    },
    recall: (kept) => {
      if (typeof kept !== 'object' || kept === null) return;
      const texts = Object.entries(kept).filter(([key, text]) => {
        const id = FIELD_IDS.find((known) => known === key);
        return id && FIELDS[id].isKept && !typed.has(id) && isRecallable(id, text);
      });
      take(Object.fromEntries(texts));
    },
    keep: () =>
      Object.fromEntries(FIELD_IDS.filter((id) => FIELDS[id].isKept).map((id) => [id, texts.value[id]])),
  };
}

/** What the browser kept may be of an older form or of another hand: a choice must still be one. */
function isRecallable(id: FieldId, text: unknown): boolean {
  if (typeof text !== 'string' || text.length > TEXT_MAX) return false;
  const choices = choicesOf(FIELDS[id], startTexts(''));
  return !choices || choices.some(([value]) => value === text);
}
