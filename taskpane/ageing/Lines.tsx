import { Action } from '../components/Action';
import { Entry } from '../components/Entry';
import { RetypedEntry } from '../components/RetypedEntry';
import type { LineField, LineNumber } from './form';
import type { Ageing } from './state';

const FIELDS: readonly { id: LineField; label: string; hint?: string }[] = [
  { id: 'hours', label: 'Hours of the source' },
  { id: 'output', label: 'Light output, lm' },
  { id: 'expanded', label: 'Uncertainty U, lm', hint: 'May stay empty.' },
  { id: 'date', label: 'Measured on' },
  { id: 'remark', label: 'Note' },
];

/** The measurements as typed, one group of fields each. */
export function Lines({ ageing }: { readonly ageing: Ageing }) {
  const { lines, understood, isAllShown } = ageing;
  return (
    <>
      {lines.value.map((line, at) => (
        <fieldset key={at} class="measurement pair">
          <legend>Measurement {at + 1}</legend>
          {FIELDS.map(({ id, label, hint }) => {
            const problem = understood.value.lines[at]?.[id];
            // What is merely still missing is not held against somebody who is typing.
            const isShown = isAllShown.value || line[id].trim() !== '';
            const common = {
              id: `ageing-${at}-${id}`,
              label,
              hint,
              value: line[id],
              onType: (text: string) => ageing.typeLine(at, id, text),
            };
            const read = isNumber(id) && understood.value.lineNumbers[at]?.[id];
            return read ? (
              <RetypedEntry key={id} {...common} read={read} problem={isShown ? problem : undefined} />
            ) : (
              <Entry
                key={id}
                {...common}
                type={id === 'date' ? 'date' : 'text'}
                error={isShown ? problem : undefined}
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

function isNumber(id: LineField): id is LineNumber {
  return id === 'hours' || id === 'output' || id === 'expanded';
}
