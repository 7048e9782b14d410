import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { Questions } from '../components/Questions';
import { Report } from '../components/Report';
import { LinesPreview } from '../importing/LinesPreview';
import { TableHow } from '../importing/TableHow';
import { TextSource } from '../importing/TextSource';
import { refused } from '../store/said';
import { OFFER_FIELDS, OFFER_IDS } from './fields';
import type { Importing } from './importing';
import { MappingFields } from './MappingFields';
import type { Imported, ImportedRow } from './rows';
import type { OffersTable } from './table';

/** Offers from a CSV file or a copied table: choose, say what is what, look, take. */
export function ImportCard({ importing }: { readonly importing: Importing }) {
  const { text, note, table, refusal, read, report } = importing;
  return (
    <TextSource
      id="offers"
      title="Import offers"
      gist="a CSV file or a copied table"
      file={{
        label: 'CSV file',
        accept: '.csv,.tsv,.txt,text/csv,text/plain',
        onChoose: (file) => void importing.choose(file),
      }}
      paste={{ label: 'Or paste a table', rows: 4, onPaste: importing.paste }}
      text={text.value}
      said={
        <>
          {note.value && <p class={look.quiet}>{note.value}</p>}
          {refusal.value && <p class={look.error}>{refusal.value}</p>}
        </>
      }
    >
      {table.value && read.value && (
        <Understood importing={importing} table={table.value} read={read.value} />
      )}
      <Report words={report.value} />
    </TextSource>
  );
}

interface UnderstoodProps {
  readonly importing: Importing;
  readonly table: OffersTable;
  readonly read: Imported;
}

function Understood({ importing, table, read }: UnderstoodProps) {
  const { objection, questions, proof, rows } = read;
  const used = OFFER_IDS.filter((id) => rows.some(({ texts }) => texts[id] !== ''));
  return (
    <>
      <TableHow
        id="offers"
        how={table.how}
        proof={proof}
        hasHeadings={importing.hasHeadings.value}
        onHeadings={importing.setHeadings}
      />
      <MappingFields importing={importing} table={table} />
      {objection && (
        <p class={look.error} role="status">
          {objection}
        </p>
      )}
      <Questions questions={questions} onAnswer={importing.decide} />
      {rows.length > 0 && (
        <LinesPreview
          label="Preview of the offers"
          heads={used.map((id) => OFFER_FIELDS[id].label)}
          rows={rows.map((row) => ({
            line: String(row.line.line),
            problems: row.problems,
            cells: used.map((id) => cellOf(row, id)),
          }))}
        />
      )}
      <Decide importing={importing} rows={rows} />
    </>
  );
}

function cellOf({ bad, texts, offer }: ImportedRow, id: (typeof OFFER_IDS)[number]) {
  if (bad.includes(id)) return { text: `\u2717 ${texts[id] || 'nothing'}`, look: 'bad' as const };
  const value = offer?.[id];
  return { text: value === undefined ? texts[id] || '\u2013' : String(value) };
}

/** Only the clean rows, or none: a row is never taken in part. */
function Decide({ importing, rows }: { readonly importing: Importing; readonly rows: Imported['rows'] }) {
  const [clean, taken] = [importing.clean.value.length, importing.taken.value.length];
  const open = rows.length - taken;
  const offers = (count: number) => `${count} ${count === 1 ? 'offer' : 'offers'}`;
  const label = open === clean ? `Import ${offers(clean)}` : `Import the ${clean} clean of ${offers(open)}`;
  return (
    <>
      {taken > 0 && (
        <p class={look.quiet}>
          {offers(taken)} of this text {taken === 1 ? 'is' : 'are'} in the list. The text stays here until the
          sheet is built.
        </p>
      )}
      <div class={look.answers}>
        <Action isMain isOff={clean === 0} onAct={importing.take}>
          {clean === 0 ? (taken > 0 ? 'Nothing more to import' : 'Nothing to import yet') : label}
        </Action>
        <Action
          onAct={() =>
            importing.cancel(
              taken > 0 ? 'The text is gone; the list stays.' : refused('Nothing was imported.'),
            )
          }
        >
          {taken > 0 ? 'Clear the text' : 'Import none'}
        </Action>
      </div>
    </>
  );
}
