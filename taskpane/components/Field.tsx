import { choicesOf, isTicked, TICKED } from '../form/field';
import type { Form } from '../form/form';
import { isLengthUnit } from '../parse/units';
import { Action } from './Action';
import { AskedEntry } from './AskedEntry';
import { Choice } from './Choice';
import look from './look.module.css';
import { Tick } from './Tick';

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
  const read = form.reads.value[id];
  const isShown = form.isShown(id);
  const common = {
    id: `${at}-${id}`,
    label: spec.label,
    value: texts[id],
    hint: typeof spec.hint === 'function' ? spec.hint(texts) : spec.hint,
  };
  const choices = choicesOf(spec, texts);
  if (choices) {
    const error = isShown ? read.problem : undefined;
    return <Choice {...common} choices={choices} error={error} onPick={(value) => form.type(id, value)} />;
  }
  if (spec.kind === 'tick')
    return (
      <Tick id={common.id} isOn={isTicked(texts[id])} onTick={(isOn) => form.type(id, isOn ? TICKED : '')}>
        {spec.label}
      </Tick>
    );
  const unit = isShown ? read.otherUnit?.unit : undefined;
  return (
    <AskedEntry
      {...common}
      isNeeded={spec.needed !== undefined}
      type={spec.kind === 'number' || spec.kind === 'date' ? spec.kind : 'text'}
      {...(spec.kind === 'lines' ? { rows: spec.rows, isProse: spec.isProse ?? false } : {})}
      read={read}
      isShown={isShown}
      onType={(text) => form.type(id, text)}
      onLeave={() => form.leave(id)}
      onDecide={(mark) => form.decide(id, mark)}
    >
      {unit && isLengthUnit(unit) && (
        <div class={look.answers}>
          <Action onAct={() => form.useUnit(id)}>Use {UNIT_WORDS[unit]} for all lengths</Action>
        </div>
      )}
    </AskedEntry>
  );
}

/** Several fields of a form, in this order. */
export function Fields<K extends string>({ ids, ...of }: Of<K> & { readonly ids: readonly K[] }) {
  return ids.map((id) => <Field key={id} id={id} {...of} />);
}
