import { Action } from '../components/Action';
import { Report } from '../components/Report';
import { TableHow, TextSource } from '../components/TextSource';
import { LogMapping } from './LogMapping';
import { LogPreview } from './LogPreview';
import type { Logging } from './logging';
import type { LogRead } from './logrows';
import type { LogTable } from './logtable';
import type { BatchProps } from './NewBatch';

/** A whole meter log into the batch: choose or paste, say what is what, look, write. */
export function LogCard({ store, step }: BatchProps) {
  const { logging } = step;
  const { text, note, table, read, report } = logging;
  const found = table.value;
  return (
    <TextSource
      id="batch-log"
      kind="group"
      title="Paste a meter log"
      gist="serial number and readings in each line"
      file={{
        label: 'Log file',
        accept: '.csv,.tsv,.txt,.log,text/csv,text/plain',
        onChoose: (file) => void logging.choose(file),
      }}
      paste={{ label: 'Or paste it', rows: 5, onPaste: logging.paste }}
      text={text.value}
      said={
        <>
          {note.value && <p class="quiet">{note.value}</p>}
          {typeof found === 'string' && found !== '' && <p class="error">{found}</p>}
        </>
      }
    >
      {typeof found !== 'string' && read.value && (
        <Understood
          logging={logging}
          table={found}
          read={read.value}
          isOff={store.troubles.busy.value !== ''}
        />
      )}
      <Report words={report.value} />
    </TextSource>
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
      <TableHow
        id="batch-log"
        how={table.how}
        proof={proof}
        hasHeadings={logging.hasHeadings.value}
        onHeadings={logging.setHeadings}
      />
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
