import { Action } from '../components/Action';
import { entryLook, textOf } from '../components/entrylook';
import look from '../components/look.module.css';
import { Questions } from '../components/Questions';
import { Report } from '../components/Report';
import { LinesPreview } from '../importing/LinesPreview';
import { TableHow } from '../importing/TableHow';
import { TextSource } from '../importing/TextSource';
import { shown } from '../parse/quantity';
import { refused } from '../store/said';
import { LogMapping } from './LogMapping';
import type { Logging } from './logging';
import type { LogRow } from './logrow';
import type { LogRead } from './logrows';
import type { LogTable } from './logtable';
import type { BatchProps } from './NewBatch';

/** A whole meter log into the batch: choose or paste, say what is what, look, write. */
export function LogCard({ store, step }: BatchProps) {
  const { logging } = step;
  const { text, note, table, refusal, read, report } = logging;
  return (
    <TextSource
      id="batch-log"
      kind="group"
      title="Paste a meter log"
      gist="a line a unit, or the meter’s own log"
      file={{
        label: 'Log file',
        accept: '.csv,.tsv,.txt,.log,text/csv,text/plain',
        onChoose: (file) => void logging.choose(file),
      }}
      paste={{ label: 'Or paste it', rows: 5, onPaste: logging.paste }}
      text={text.value}
      said={
        <>
          {note.value && <p class={look.quiet}>{note.value}</p>}
          {refusal.value && <p class={look.error}>{refusal.value}</p>}
        </>
      }
    >
      {table.value && read.value && (
        <Understood
          logging={logging}
          table={table.value}
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
        <p class={look.error} role="status">
          {objection}
        </p>
      )}
      <Questions questions={questions} onAnswer={logging.decide} />
      {rows.length > 0 && <LinesPreview label="Preview of the log" {...previewOf(rows)} />}
      <Decide logging={logging} read={read} isOff={isOff} />
    </>
  );
}

/** The lines as they will be written, with what each has beside its readings. */
function previewOf(rows: readonly LogRow[]) {
  const width = rows.reduce((most, { entries }) => Math.max(most, entries.length), 0);
  const hasField = rows.some(({ field }) => field !== undefined);
  const hasRange = rows.some(({ range }) => range !== undefined);
  return {
    heads: [
      'Unit',
      ...(hasField ? ['Field'] : []),
      ...(hasRange ? ['Range'] : []),
      ...Array.from({ length: width }, (_, i) => String(i + 1)),
    ],
    rows: rows.map((row) => ({
      line: row.lines.length > 1 ? `${row.line} to ${row.lines.at(-1)!.line}` : String(row.line),
      problems: row.problems,
      cells: [
        {
          text: `${row.serial || '\u2013'}${row.isNew ? ' (new)' : ''}`,
          look: row.target === undefined ? ('bad' as const) : undefined,
        },
        ...(hasField ? [{ text: row.field ?? '\u2717' }] : []),
        ...(hasRange ? [{ text: row.range === undefined ? '\u2013' : `\u00d7 ${shown(row.range)}` }] : []),
        ...row.entries.map((entry) => ({ text: textOf(entry), look: entryLook(entry), title: entry.where })),
      ],
    })),
  };
}

/** Only the clean lines, or none: a line is never taken in part. */
function Decide({ logging, read, isOff }: Omit<UnderstoodProps, 'table'>) {
  const taken = new Set(logging.taken.value);
  const clean = linesIn(logging.clean.value);
  const all = linesIn(read.rows.filter((row) => !taken.has(row)));
  const replaced = logging.replaced.value;
  const empty = logging.clean.value.flatMap(({ entries }) =>
    entries.filter(({ kind }) => kind === 'empty'),
  ).length;
  const lines = (n: number) => `${n} ${n === 1 ? 'line' : 'lines'}`;
  return (
    <>
      {empty > 0 && (
        <p class={look.quiet}>
          {empty === 1 ? 'One reading is' : `${empty} readings are`} missing in them: what stands on the sheet
          there stays.
        </p>
      )}
      {replaced > 0 && (
        <p class={look.quiet}>
          {replaced === 1 ? 'One row has' : `${replaced} rows have`} readings already; those of the log take
          their place.
        </p>
      )}
      {taken.size > 0 && (
        <p class={look.quiet}>
          {lines(linesIn([...taken]))} of this text {linesIn([...taken]) === 1 ? 'stands' : 'stand'} on the
          sheet.
        </p>
      )}
      <div class={look.answers}>
        <Action isMain isOff={isOff || clean === 0} onAct={() => void logging.take()}>
          {clean === 0
            ? 'Nothing to write yet'
            : clean === all
              ? `Write ${lines(clean)}`
              : `Write the ${clean} clean of ${lines(all)}`}
        </Action>
        <Action isOff={isOff} onAct={() => logging.cancel(refused('Nothing was written.'))}>
          Write none
        </Action>
      </div>
    </>
  );
}

const linesIn = (rows: readonly LogRow[]) => rows.flatMap(({ lines }) => lines).length;
