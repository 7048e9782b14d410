import { Action } from '../components/Action';
import { Fields } from '../components/Field';
import look from '../components/look.module.css';
import own from './ageing.module.css';
import type { LineField } from './form';
import type { Ageing } from './state';

const FIELDS: readonly LineField[] = ['hours', 'output', 'expanded', 'date', 'remark'];

/** The measurements as typed, one group of fields each. */
export function Lines({ ageing: { lines } }: { readonly ageing: Ageing }) {
  return (
    <>
      {lines.forms.value.map((form, at) => (
        <fieldset key={form.key} class={`${own.measurement} ${look.pair}`}>
          <legend>Measurement {at + 1}</legend>
          <Fields form={form} at={`ageing-${at}`} ids={FIELDS} />
          <Action onAct={() => lines.drop(form)}>Remove measurement {at + 1}</Action>
        </fieldset>
      ))}
      <Action onAct={lines.add}>Add a measurement</Action>
    </>
  );
}
