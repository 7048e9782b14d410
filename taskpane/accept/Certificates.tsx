import { Action } from '../components/Action';
import { Entry } from '../components/Entry';
import look from '../components/look.module.css';
import { PerSheet } from '../components/PerSheet';
import { Report } from '../components/Report';
import type { Store } from '../store';
import type { Accept } from './state';

/** One page to print and sign for a run. */
export function Certificates({ store, accept }: { readonly store: Store; readonly accept: Accept }) {
  const runs = store.workbook.runs.value;
  const isBusy = store.troubles.busy.value !== '';
  return (
    <section class={look.card} aria-labelledby="accept-certificate">
      <h2 id="accept-certificate">Certificate of one run</h2>
      <p class={look.quiet}>
        One page to print and sign, linked to the run: it is marked a draft while readings are missing.
      </p>
      {runs.length === 0 && (
        <>
          <p class={look.quiet}>There is no run in this workbook yet.</p>
          <Action isMain onAct={() => store.open('run')}>
            Begin a run
          </Action>
        </>
      )}
      {runs.length > 0 && (
        <Entry
          id="accept-issuedBy"
          label="Issued by"
          value={accept.issuedBy.value}
          onType={accept.typeIssuedBy}
        />
      )}
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
