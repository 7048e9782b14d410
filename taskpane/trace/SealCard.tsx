import { STATEMENT, sealText } from '../../src/audit/seal/text';
import { Action } from '../components/Action';
import { CopyText } from '../components/CopyText';
import { Entry } from '../components/Entry';
import look from '../components/look.module.css';
import type { Store } from '../store';
import { checkingOf } from './checking';
import { KeyFold } from './KeyFold';
import own from './SealCard.module.css';
import { SealVerdict } from './SealVerdict';
import { sealingOf } from './sealing';
import { ToASheet } from './ToASheet';

/** A seal over the sheet in front: made, compared, opened. */
export function SealCard({ store }: { readonly store: Store }) {
  const sealing = sealingOf(store);
  const { front, frontWords } = checkingOf(store);
  const report = sealing.report.value;
  const isOff = store.troubles.busy.value !== '' || front.value === undefined;
  return (
    <section class={look.card} aria-labelledby="seal-title">
      <h2 id="seal-title">Seal</h2>
      <p class={look.quiet}>{frontWords.value}</p>
      <ToASheet store={store} />
      <details class={own.statement}>
        <summary tabIndex={0}>What a seal shows, and what it does not</summary>
        <p>{STATEMENT}</p>
      </details>
      <Entry
        id="seal-who"
        label="Who seals or opens"
        value={sealing.who.value}
        hint="Kept in the workbook with the time."
        onType={sealing.typeWho}
      />
      <KeyFold store={store} />
      <div class={look.answers}>
        <Action isMain isOff={isOff} onAct={() => void sealing.seal()}>
          Seal this sheet
        </Action>
        <Action isOff={isOff} onAct={() => void sealing.verify()}>
          Compare with its seal
        </Action>
      </div>
      <p role="status">{sealing.said.value}</p>
      {report && (
        <>
          <SealVerdict store={store} report={report} />
          {sealing.hasPaper.value && (
            <div class={look.answers}>
              <Action isOff={store.troubles.busy.value !== ''} onAct={() => void sealing.writeOnPaper()}>
                Write this on its certificate
              </Action>
            </div>
          )}
          <CopyText key={`${report.sheet} ${sealing.said.value}`} text={() => sealText(report)}>
            Copy the comparison as text
          </CopyText>
        </>
      )}
      <details class={own.reopen}>
        <summary tabIndex={0}>Open a sealed sheet again</summary>
        <Entry
          id="seal-why"
          label="Why it is opened"
          value={sealing.why.value}
          hint="Kept with the sheet: opening a seal cannot be hidden by the next one."
          onType={sealing.typeWhy}
        />
        <Action isOff={isOff} onAct={() => void sealing.reopen()}>
          Take the seal off
        </Action>
      </details>
    </section>
  );
}
