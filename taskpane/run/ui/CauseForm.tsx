import { useSignal } from '@preact/signals';
import { Action } from '../../components/Action';
import { AskedEntry } from '../../components/AskedEntry';
import look from '../../components/look.module.css';
import { retyped } from '../../parse/quantity';
import { readNumber } from '../../parse/readnumber';
import type { Store } from '../../store';
import { type CauseField, causeFields } from '../causefields';
import type { CauseShare } from '../contributors';

export interface CauseFormProps {
  readonly store: Store;
  /** The cause that makes most of the doubt. */
  readonly cause: CauseShare;
}

/** The doubt made smaller where it is explained: what is known of its largest cause, put onto the sheet. */
export function CauseForm({ store, cause }: CauseFormProps) {
  const { workbook, host, troubles } = store;
  const reading = workbook.reading.value;
  const texts = useSignal<Readonly<Record<string, string>>>({});
  const said = useSignal('');
  const fields = reading ? causeFields(cause.cause, reading) : [];
  if (!reading || fields.length === 0) return null;
  const shown = ({ name, typed }: CauseField) =>
    texts.value[name] ?? (typed === undefined ? '' : retyped(typed));
  const read = fields.map((field) => ({ field, read: readNumber(shown(field), field.expect) }));
  const changed = read.filter(({ field, read: { value } }) => value !== undefined && value !== field.typed);
  const isFit = changed.length > 0 && read.every(({ read: { problem, question } }) => !problem && !question);
  const type = ({ name }: CauseField, text: string) => {
    texts.value = { ...texts.value, [name]: text };
    said.value = '';
  };
  const put = async () => {
    const attempt = await troubles.attempt('Writing to the sheet', () =>
      host.writeCells(
        reading,
        changed.map(({ field, read: { value } }) => ({
          name: field.name,
          row: 0,
          column: 0,
          value: field.toCell(value!),
        })),
      ),
    );
    if (!attempt.ok) return;
    texts.value = {};
    said.value = `On the sheet: ${changed.map(({ field, read: { value } }) => `${field.label} ${value}`).join(', ')}.`;
    await workbook.look();
  };
  return (
    <fieldset>
      <legend>{cause.words}: what is known of it?</legend>
      {read.map(({ field, read: each }) => (
        <AskedEntry
          key={field.name}
          id={`cause-${field.name}`}
          label={field.label}
          type="number"
          value={shown(field)}
          hint={field.typed === undefined ? 'Not typed yet: a cautious value counts.' : undefined}
          read={each}
          isShown
          onType={(text) => type(field, text)}
          onDecide={(mark) => each.question && type(field, retyped(each.question[mark]))}
        />
      ))}
      <Action isOff={!isFit || troubles.busy.value !== ''} onAct={() => void put()}>
        Put it on the sheet
      </Action>
      <p class={look.quiet} role="status">
        {said.value}
      </p>
    </fieldset>
  );
}
