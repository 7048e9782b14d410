import { useSignal } from '@preact/signals';
import { Action } from '../components/Action';
import { FileField } from '../components/FileField';
import { Fold } from '../components/Fold';
import { Report } from '../components/Report';
import { LogMapping } from './LogMapping';
import { LogPreview } from './LogPreview';
import type { Logging } from './logging';
import type { LogRead } from './logrows';
import type { LogTable } from './logtable';
import type { BatchProps } from './NewBatch';

/** A whole meter log into the batch: choose or paste, say what is what, look, write. */
export function LogCard({ store, step }: BatchProps) {
  const isOpen = useSignal(false);
  const { logging } = step;
  const { text, note, table, read, report } = logging;
  const found = table.value;
  return (
    <Fold
      kind="group"
      title="Paste a meter log"
      gist="serial number and readings in each line"
      isOpen={isOpen.value}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <FileField
        id="batch-log-file"
        label="Log file"
        accept=".csv,.tsv,.txt,.log,text/csv,text/plain"
        onChoose={(file) => void logging.choose(file)}
      />
      <div class="field">
        <label for="batch-log">Or paste it</label>
        <textarea
          id="batch-log"
          rows={5}
          spellcheck={false}
          value={text.value}
          onInput={(event) => logging.paste(event.currentTarget.value)}
        />
      </div>
      <div role="status">
        {note.value && <p class="quiet">{note.value}</p>}
        {typeof found === 'string' && found !== '' && <p class="error">{found}</p>}
      </div>
      {typeof found !== 'string' && read.value && (
        <Understood
          logging={logging}
          table={found}
          read={read.value}
          isOff={store.troubles.busy.value !== ''}
        />
      )}
      <Report words={report.value} />
    </Fold>
  );
}

interface UnderstoodProps {
  readonly logging: Logging;
  readonly table: LogTable;
  readonly read: LogRead;
  readonly isOff: boolean;
}

function Understood({ logging, table, read, isOff }: UnderstoodProps) {
  const { proof, objection, questions, rows } = read;
  return (
    <>
      <p class="quiet">
        {table.how}
        {proof ? ` The ${proof.mark} is the decimal mark, as in “${proof.example}”.` : ''}
      </p>
      <label class="tick" for="batch-log-headings">
        <input
          id="batch-log-headings"
          type="checkbox"
          checked={logging.hasHeadings.value}
          onChange={(event) => logging.setHeadings(event.currentTarget.checked)}
        />
        The first line holds headings
      </label>
      <LogMapping logging={logging} table={table} />
      {objection && (
        <p class="error" role="status">
          {objection}
        </p>
      )}
      {questions.map(({ asks, message, answers }) => (
        <div key={asks} class="notice">
          <p>{message}</p>
          <div class="answers">
            {answers.map(({ label, decision }) => (
              <Action key={label} onAct={() => logging.decide(decision)}>
                {label}
              </Action>
            ))}
          </div>
        </div>
      ))}
      {rows.length > 0 && <LogPreview rows={rows} />}
      <Decide logging={logging} read={read} isOff={isOff} />
    </>
  );
}

/** Only the clean lines, or none: a line is never taken in part. */
function Decide({ logging, read, isOff }: Omit<UnderstoodProps, 'table'>) {
  const clean = logging.clean.value.length;
  const all = read.rows.length;
  const replaced = logging.replaced.value;
  const empty = logging.clean.value.flatMap(({ entries }) =>
    entries.filter(({ kind }) => kind === 'empty'),
  ).length;
  const lines = (n: number) => `${n} ${n === 1 ? 'line' : 'lines'}`;
  return (
    <>
      {empty > 0 && (
        <p class="quiet">
          {empty === 1 ? 'One reading is' : `${empty} readings are`} missing in them: what stands on the sheet
          there stays.
        </p>
      )}
      {replaced > 0 && (
        <p class="quiet">
          {replaced === 1 ? 'One row has' : `${replaced} rows have`} readings already; those of the log take
          their place.
        </p>
      )}
      <div class="answers">
        <Action isMain isOff={isOff || clean === 0} onAct={() => void logging.take()}>
          {clean === 0
            ? 'Nothing to write yet'
            : clean === all
              ? `Write ${lines(clean)}`
              : `Write the ${clean} clean of ${lines(all)}`}
        </Action>
        <Action isOff={isOff} onAct={logging.cancel}>
          Write none
        </Action>
      </div>
    </>
  );
}
