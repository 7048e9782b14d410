import { choicesOf } from '../form/field';
import type { Form } from '../form/form';
import { shown } from '../parse/quantity';
import { isLengthUnit } from '../parse/units';
import { Action } from './Action';
import { Choice } from './Choice';
import { Entry } from './Entry';

interface Of<K extends string> {
  readonly form: Form<K>;
  /** Begins the ids of its controls, where the form stands among others of its kind. */
  readonly at?: string | undefined;
}

const UNIT_WORDS = { m: 'metres', cm: 'centimetres', mm: 'millimetres', ft: 'feet', in: 'inches' } as const;

/** One field of a form with its label, hint, what is wrong with it, and the question if there is one. */
export function Field<K extends string>({ form, id, at = form.name }: Of<K> & { readonly id: K }) {
  const spec = form.table[id];
  const texts = form.texts.value;
  if (spec.applies && !spec.applies(texts)) return null;
  const { problem, question, echo, otherUnit } = form.reads.value[id];
  const isShown = form.isShown(id);
  const hint = typeof spec.hint === 'function' ? spec.hint(texts) : spec.hint;
  const common = {
    id: `${at}-${id}`,
    label: spec.label,
    value: texts[id],
    error: isShown ? (question?.message ?? problem) : undefined,
  };
  const choices = choicesOf(spec, texts);
  if (choices)
    return <Choice {...common} choices={choices} hint={hint} onPick={(value) => form.type(id, value)} />;
  return (
    <Entry
      {...common}
      type={spec.kind === 'number' || spec.kind === 'date' ? spec.kind : 'text'}
      rows={spec.kind === 'lines' ? spec.rows : undefined}
      hint={echo ? <span class="echo">{echo}</span> : hint}
      isNeeded={spec.needed !== undefined}
      onType={(text) => form.type(id, text)}
      onLeave={() => form.leave(id)}
    >
      {isShown && question && (
        <div class="answers">
          <Action onAct={() => form.decide(id, 'point')}>{shown(question.point)}</Action>
          <Action onAct={() => form.decide(id, 'comma')}>{shown(question.comma)}</Action>
        </div>
      )}
      {isShown && otherUnit && isLengthUnit(otherUnit.unit) && (
        <div class="answers">
          <Action onAct={() => form.useUnit(id)}>Use {UNIT_WORDS[otherUnit.unit]} for all lengths</Action>
        </div>
      )}
    </Entry>
  );
}

/** Several fields of a form, in this order. */
export function Fields<K extends string>({ ids, ...of }: Of<K> & { readonly ids: readonly K[] }) {
  return ids.map((id) => <Field key={id} id={id} {...of} />);
}
