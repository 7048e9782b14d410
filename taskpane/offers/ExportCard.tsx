import { useSignal } from '@preact/signals';
import { Fold } from '../components/Fold';
import look from '../components/look.module.css';
import { SaveFile } from '../saving/SaveFile';
import { csvFile } from '../saving/saving';
import type { Store } from '../store';

/** All offers as CSV: a file where the program lets the pane save one, and the text to copy. */
export function ExportCard({ store, csv }: { readonly store: Store; readonly csv: string }) {
  const isOpen = useSignal(false);
  if (csv === '') return null;
  return (
    <Fold
      title="Export offers"
      gist="as CSV, with the same columns"
      isOpen={isOpen.value}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <div class={look.field}>
        <label for="offers-csv">Offers as CSV</label>
        <textarea id="offers-csv" readOnly rows={5} spellcheck={false} value={csv} />
      </div>
      <SaveFile
        file={() => csvFile(csv, 'offers.csv')}
        copy="Copy as CSV"
        onSave={() => void store.log.note('exported', '', 'Offers as CSV')}
      >
        Save as a file
      </SaveFile>
    </Fold>
  );
}
