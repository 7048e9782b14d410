import { Entry } from '../components/Entry';
import { PerSheet } from '../components/PerSheet';
import { Report } from '../components/Report';
import type { Store } from '../store';
import type { Accept } from './state';

/** One page to print and sign for a run. */
export function Certificates({ store, accept }: { readonly store: Store; readonly accept: Accept }) {
  const runs = store.workbook.runs.value;
  if (runs.length === 0) return null;
  const isBusy = store.troubles.busy.value !== '';
  return (
    <section class="card" aria-labelledby="accept-certificate">
      <h2 id="accept-certificate">Certificate of one run</h2>
      <p class="quiet">
        One page to print and sign, linked to the run: it is marked a draft while readings are missing.
      </p>
      <Entry
        id="accept-issuedBy"
        label="Issued by"
        value={accept.issuedBy.value}
        onType={accept.typeIssuedBy}
      />
      <PerSheet
        id="accept-run"
        label="Run"
        sheets={runs.map(({ sheet }) => sheet)}
        isOff={isBusy}
        onAct={(sheet) => void accept.certify(sheet)}
      >
        {(sheet) => `Certificate of “${sheet}”`}
      </PerSheet>
      <Report words={accept.certified.value} />
    </section>
  );
}
