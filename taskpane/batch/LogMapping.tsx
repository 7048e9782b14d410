import look from '../components/look.module.css';
import { columnName } from '../importing/columnname';
import mapping from '../importing/mapping.module.css';
import type { Logging } from './logging';
import { LOG_FIELDS, type LogField, type LogTable } from './logtable';

const WORDS: Readonly<Record<LogField, string>> = {
  serial: 'Serial number',
  place: 'Place',
  hours: 'Run time',
  date: 'Date',
  range: 'Range factor',
  ambient: 'Ambient light',
  field: 'Colour of the field',
};
const NONE = '';

/** Which column is what; the readings follow one another from the first on. */
export function LogMapping({ logging, table }: { readonly logging: Logging; readonly table: LogTable }) {
  const columns = logging.columns.value!;
  const hasHeadings = logging.hasHeadings.value;
  const head = hasHeadings ? (table.lines[0]?.cells ?? []) : [];
  const example = table.lines[hasHeadings ? 1 : 0]?.cells ?? [];
  const options = Array.from({ length: table.columns }, (_, column) => (
    <option key={column} value={String(column)}>
      {columnName(head[column], column)}
      {example[column]?.trim() ? `, as in “${example[column]!.trim().slice(0, 24)}”` : ''}
    </option>
  ));
  return (
    <fieldset class={mapping.mapping}>
      <legend>What is in which column</legend>
      <div class={look.field}>
        <label for="batch-log-order">A line holds</label>
        <select
          id="batch-log-order"
          value={columns.sequence ? 'one' : 'all'}
          onChange={(event) => logging.follow(event.currentTarget.value === 'one')}
        >
          <option value="all">readings of a unit, with its serial number</option>
          <option value="one">one reading, in the order of the batch</option>
        </select>
      </div>
      {columns.sequence && <Beginning logging={logging} from={columns.sequence.from} />}
      {LOG_FIELDS.filter((field) => !columns.sequence || field === 'date').map((field) => (
        <div key={field} class={look.field}>
          <label for={`batch-log-${field}`}>{WORDS[field]}</label>
          <select
            id={`batch-log-${field}`}
            value={columns[field] === undefined ? NONE : String(columns[field])}
            onChange={(event) => {
              const chosen = event.currentTarget.value;
              logging.map(field, chosen === NONE ? undefined : Number(chosen));
            }}
          >
            {field !== 'serial' && <option value={NONE}>not in the log</option>}
            {options}
          </select>
        </div>
      ))}
      <div class={look.field}>
        <label for="batch-log-first">{columns.sequence ? 'Reading' : 'First reading'}</label>
        <select
          id="batch-log-first"
          value={String(columns.first)}
          onChange={(event) => logging.begin(Number(event.currentTarget.value))}
        >
          {options}
        </select>
      </div>
      {!columns.sequence && (
        <label class={look.tick} for="batch-log-unknown">
          <input
            id="batch-log-unknown"
            type="checkbox"
            checked={logging.takesUnknown.value}
            onChange={(event) => logging.takeUnknown(event.currentTarget.checked)}
          />
          Put units that the batch does not list into its free lines
        </label>
      )}
    </fieldset>
  );
}

/** With which unit a log without serial numbers begins. */
function Beginning({ logging, from }: { readonly logging: Logging; readonly from: string }) {
  return (
    <div class={look.field}>
      <label for="batch-log-from">Begins with unit</label>
      <input
        id="batch-log-from"
        value={from}
        aria-describedby="batch-log-from-hint"
        onChange={(event) => logging.start(event.currentTarget.value.trim())}
      />
      <p class={look.quiet} id="batch-log-from-hint">
        A serial number of the batch. Left empty, the readings go to the units without any, in their order:
        field after field, point after point, as guided capture asks for them.
      </p>
    </div>
  );
}
