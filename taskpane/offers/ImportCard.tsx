import { useSignal } from '@preact/signals';
import { Action } from '../components/Action';
import { FileField } from '../components/FileField';
import { Fold } from '../components/Fold';
import { Report } from '../components/Report';
import { shown } from '../parse/quantity';
import { ImportPreview } from './ImportPreview';
import type { Importing } from './importing';
import { MappingFields } from './MappingFields';
import type { Imported } from './rows';
import type { OffersTable } from './table';

/** Offers from a CSV file or a copied table: choose, say what is what, look, take. */
export function ImportCard({ importing }: { readonly importing: Importing }) {
  const isOpen = useSignal(false);
  const { text, note, table, imported, report } = importing;
  const found = table.value;
  return (
    <Fold
      title="Import offers"
      gist="a CSV file or a copied table"
      isOpen={isOpen.value}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <FileField
        id="offers-file"
        label="CSV file"
        accept=".csv,.tsv,.txt,text/csv,text/plain"
        onChoose={(file) => void importing.choose(file)}
      />
      <div class="field">
        <label for="offers-paste">Or paste a table</label>
        <textarea
          id="offers-paste"
          rows={4}
          spellcheck={false}
          value={text.value}
          onInput={(event) => importing.paste(event.currentTarget.value)}
        />
      </div>
      <div role="status">
        {note.value && <p class="quiet">{note.value}</p>}
        {typeof found === 'string' && found !== '' && <p class="error">{found}</p>}
      </div>
      {typeof found !== 'string' && imported.value && (
        <Understood importing={importing} table={found} imported={imported.value} />
      )}
      <Report words={report.value} />
    </Fold>
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
      <p class="quiet">
        {table.how}
        {proof ? ` The ${proof.mark} is the decimal mark, as in “${proof.example}”.` : ''}
      </p>
      <label class="tick" for="offers-headings">
        <input
          id="offers-headings"
          type="checkbox"
          checked={importing.hasHeadings.value}
          onChange={(event) => importing.setHeadings(event.currentTarget.checked)}
        />
        The first line holds headings
      </label>
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
