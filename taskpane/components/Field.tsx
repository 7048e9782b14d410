import { shown } from '../parse/quantity';
import { isLengthUnit } from '../parse/units';
import type { FieldId } from '../setup/field';
import { FIELDS } from '../setup/fields';
import type { Form } from '../setup/form';
import { Action } from './Action';

export interface FieldProps {
  readonly form: Form;
  readonly id: FieldId;
}

const UNIT_WORDS = { m: 'metres', cm: 'centimetres', mm: 'millimetres', ft: 'feet', in: 'inches' } as const;

/** Id of a field's control in the page. */
const controlId = (id: FieldId) => `field-${id}`;

/** One field of the set-up form with its label, hint, error, and question if there is one. */
export function Field({ form, id }: FieldProps) {
  const spec = FIELDS[id];
  const texts = form.texts.value;
  if (spec.applies && !spec.applies(texts)) return null;
  const check = form.checks.value[id];
  const isShown = form.isShown(id);
  const error = isShown ? check.error : undefined;
  const question = isShown ? check.question : undefined;
  const hint = typeof spec.hint === 'function' ? spec.hint(texts) : spec.hint;
  const noteId = `${controlId(id)}-note`;
  const common = {
    id: controlId(id),
    value: texts[id],
    'aria-describedby': noteId,
    'aria-invalid': error !== undefined || question !== undefined,
    'aria-required': spec.isRequired === true,
    onBlur: () => form.leave(id),
  };
  return (
    <div class="field">
      <label for={controlId(id)}>
        {spec.label}
        {spec.isRequired && texts[id] === '' && <span class="needed"> (needed)</span>}
      </label>
      {spec.kind === 'choice' ? (
        <select {...common} onChange={(event) => form.type(id, event.currentTarget.value)}>
          {spec.choices.map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </select>
      ) : (
        <input
          {...common}
          {...(spec.kind === 'date' ? { type: 'date' as const } : { type: 'text' as const })}
          inputMode={spec.kind === 'number' ? 'decimal' : 'text'}
          autocomplete="off"
          spellcheck={false}
          onInput={(event) => form.type(id, event.currentTarget.value)}
        />
      )}
      <div class="under">
        <div id={noteId}>
          {error ? <p class="error">{error}</p> : question ? <p class="error">{question.message}</p> : null}
          {!error && !question && check.echo && <p class="echo">{check.echo}</p>}
          {!error && !question && !check.echo && hint && <p class="hint">{hint}</p>}
        </div>
        {question && (
          <div class="answers">
            <Action onAct={() => form.decide(id, 'point')}>{shown(question.point)}</Action>
            <Action onAct={() => form.decide(id, 'comma')}>{shown(question.comma)}</Action>
          </div>
        )}
        {error && check.otherUnit && spec.kind === 'number' && isLengthUnit(check.otherUnit.unit) && (
          <div class="answers">
            <Action onAct={() => form.useUnit(id)}>
              Use {UNIT_WORDS[check.otherUnit.unit]} for all lengths
            </Action>
          </div>
        )}
      </div>
    </div>
  );
}
