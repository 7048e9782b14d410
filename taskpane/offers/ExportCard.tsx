import { useSignal } from '@preact/signals';
import { Action } from '../components/Action';
import { CopyText } from '../components/CopyText';
import { Fold } from '../components/Fold';
import { saveCsv } from '../download';
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
      <div>
        <Action
          onAct={() => {
            saveCsv(csv, 'offers.csv');
            void store.log.note('exported', '', 'Offers as CSV');
          }}
        >
          Save as a file
        </Action>
      </div>
      <p class="quiet">If no file appears, this program does not let the pane save one: copy the text.</p>
      <div class="field">
        <label for="offers-csv">Offers as CSV</label>
        <textarea id="offers-csv" readOnly rows={5} spellcheck={false} value={csv} />
      </div>
      <CopyText text={() => csv}>Copy as CSV</CopyText>
    </Fold>
  );
}
