import { Action } from '../components/Action';
import { Report } from '../components/Report';
import { TableHow, TextSource } from '../components/TextSource';
import { shown } from '../parse/quantity';
import { ImportPreview } from './ImportPreview';
import type { Importing } from './importing';
import { MappingFields } from './MappingFields';
import type { Imported } from './rows';
import type { OffersTable } from './table';

/** Offers from a CSV file or a copied table: choose, say what is what, look, take. */
export function ImportCard({ importing }: { readonly importing: Importing }) {
  const { text, note, table, imported, report } = importing;
  const found = table.value;
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
          {note.value && <p class="quiet">{note.value}</p>}
          {typeof found === 'string' && found !== '' && <p class="error">{found}</p>}
        </>
      }
    >
      {typeof found !== 'string' && imported.value && (
        <Understood importing={importing} table={found} imported={imported.value} />
      )}
      <Report words={report.value} />
    </TextSource>
  );
}

interface UnderstoodProps {
  readonly importing: Importing;
  readonly table: OffersTable;
  readonly imported: Imported;
}

function Understood({ importing, table, imported }: UnderstoodProps) {
  const { objection, question, proof, rows } = imported;
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
        <p class="error" role="status">
          {objection}
        </p>
      )}
      {question && (
        <div class="notice">
          <p>
            “{question.text}” can mean {shown(question.point)} or {shown(question.comma)}. Which mark do the
            decimals of this list have?
          </p>
          <div class="answers">
            <Action onAct={() => importing.decide('point')}>
              {shown(question.point)}: the point is the decimal mark
            </Action>
            <Action onAct={() => importing.decide('comma')}>
              {shown(question.comma)}: the comma is the decimal mark
            </Action>
          </div>
        </div>
      )}
      {rows.length > 0 && <ImportPreview imported={imported} />}
      <Decide importing={importing} imported={imported} />
    </>
  );
}

/** Only the clean rows, or none: a row is never taken in part. */
function Decide({ importing, imported }: Omit<UnderstoodProps, 'table'>) {
  const { rows, question, objection } = imported;
  const clean = rows.filter(({ offer }) => offer).length;
  const left = rows.length - clean;
  const offers = (count: number) => `${count} ${count === 1 ? 'offer' : 'offers'}`;
  const label =
    left === 0 ? `Import ${offers(clean)}` : `Import the ${clean} clean of ${offers(rows.length)}`;
  return (
    <div class="answers">
      <Action isMain isOff={objection !== '' || question !== undefined || clean === 0} onAct={importing.take}>
        {clean === 0 ? 'Nothing to import yet' : label}
      </Action>
      <Action onAct={importing.cancel}>Import none</Action>
    </div>
  );
}
