import { useRef, useState } from 'preact/hooks';
import { byCause, type Cause } from '../../src/audit/check/causes';
import type { CheckReport } from '../../src/audit/check/check';
import { reportText } from '../../src/audit/check/text';
import { Action } from '../components/Action';
import { CopyText } from '../components/CopyText';
import look from '../components/look.module.css';
import { count } from '../parse/block';
import type { Store } from '../store';
import { checkingOf } from './checking';
import { FindingItem } from './FindingItem';
import { isWholeSheet } from './repair';
import { ToASheet } from './ToASheet';
import traced from './trace.module.css';

/** More findings than these are shown when asked for. */
const SHOWN = 30;

/** What of our sheets is not as built, or not right. */
export function CheckCard({ store }: { readonly store: Store }) {
  const checking = checkingOf(store);
  /** The report whose findings are all shown. */
  const [shownWhole, showWhole] = useState<CheckReport | undefined>(undefined);
  const heading = useRef<HTMLHeadingElement>(null);
  const report = checking.report.value;
  const progress = checking.progress.value;
  const isOff = store.troubles.busy.value !== '';
  const findings = byCause(report?.findings ?? []);
  const shown = shownWhole === report ? findings : findings.slice(0, SHOWN);
  return (
    <section class={look.card} aria-labelledby="check-title">
      <h2 id="check-title" tabIndex={-1} ref={heading}>
        Is everything as built?
      </h2>
      <p class={look.quiet}>
        Formulas, names, input rules, protection and readings are compared with the layout, and the results
        are computed anew. Nothing is changed.
      </p>
      <div class={look.answers}>
        <Action isMain isOff={isOff} onAct={() => void checking.checkFront()}>
          Check this sheet
        </Action>
        <Action isOff={isOff} onAct={() => void checking.checkAll()}>
          Check the whole workbook
        </Action>
      </div>
      {progress && (
        <div class={look.underWay}>
          <progress max={progress.of} value={progress.done} aria-label="how far the check is" />
          <p>{progress.words}</p>
          <Action onAct={checking.cancel}>Cancel the check</Action>
        </div>
      )}
      <p role="status">{checking.said.value}</p>
      {checking.said.value === checking.frontWords.value && <ToASheet store={store} />}
      {report && findings.length > 0 && (
        <>
          <ul class={traced.findings} aria-label="Findings">
            {shown.map((cause) => (
              <FindingItem
                key={`${cause.finding.sheet}!${cause.finding.at} ${cause.finding.kind} ${cause.finding.message}`}
                store={store}
                cause={cause}
                isSettledAbove={isRefreshAbove(findings, cause)}
                onRepair={async () => {
                  await checking.repair([cause.finding, ...cause.others]);
                  // The button goes with its finding; the focus stays in the card.
                  heading.current?.focus();
                }}
              />
            ))}
          </ul>
          {shown.length < findings.length && (
            <Action onAct={() => showWhole(report)}>Show all {count(findings.length, 'finding')}</Action>
          )}
        </>
      )}
      {report && (
        <>
          <div class={look.answers}>
            <Action isOff={isOff} onAct={() => void checking.toSheet()}>
              Write the findings to a sheet
            </Action>
          </div>
          <CopyText key={checking.said.value} text={() => reportText(report)}>
            Copy the findings as text
          </CopyText>
        </>
      )}
    </section>
  );
}

/** Entering the formulas again is for a whole sheet: it is offered once, at the first finding that asks for it. */
function isRefreshAbove(causes: readonly Cause[], cause: Cause): boolean {
  const { finding } = cause;
  if (!isWholeSheet(finding)) return false;
  return (
    causes.find((other) => isWholeSheet(other.finding) && other.finding.sheet === finding.sheet) !== cause
  );
}
