import { Action } from '../components/Action';
import { Entry } from '../components/Entry';
import type { LineField } from './form';
import type { Ageing } from './state';

const FIELDS: readonly { id: LineField; label: string; type: 'number' | 'date' | 'text' }[] = [
  { id: 'hours', label: 'Hours of the source', type: 'number' },
  { id: 'output', label: 'Light output, lm', type: 'number' },
  { id: 'expanded', label: 'U, lm', type: 'number' },
  { id: 'date', label: 'Measured on', type: 'date' },
  { id: 'remark', label: 'Note', type: 'text' },
];

/** The measurements as typed, one group of fields each. */
export function Lines({ ageing }: { readonly ageing: Ageing }) {
  const { lines, understood, isAllShown } = ageing;
  return (
    <>
      {lines.value.map((line, at) => (
        <fieldset key={at} class="measurement">
          <legend>Measurement {at + 1}</legend>
          {FIELDS.map(({ id, label, type }) => {
            const problem = understood.value.lines[at]?.[id];
            // What is merely still missing is not held against somebody who is typing.
            const isShown = isAllShown.value || line[id].trim() !== '';
            return (
              <Entry
                key={id}
                id={`ageing-${at}-${id}`}
                label={label}
                type={type}
                value={line[id]}
                error={isShown ? problem : undefined}
                onType={(text) => ageing.typeLine(at, id, text)}
              />
            );
          })}
          <Action onAct={() => ageing.dropLine(at)}>Remove measurement {at + 1}</Action>
        </fieldset>
      ))}
      <Action onAct={ageing.addLine}>Add a measurement</Action>
    </>
  );
}
