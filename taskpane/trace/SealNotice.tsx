import { useEffect } from 'preact/hooks';
import type { SealReport } from '../../src/audit/seal/verify';
import { isAddress } from '../../src/sheets/address';
import { Action } from '../components/Action';
import look from '../components/look.module.css';
import box from '../components/TroubleBox.module.css';
import { count } from '../parse/block';
import type { Store } from '../store';
import { CellButton } from './CellButton';
import { sealingOf } from './sealing';
import { sealWatchOf } from './sealwatch';
import traced from './trace.module.css';

/** What the seal of the sheet in front is worth just now, whichever step is open. */
export function SealNotice({ store }: { readonly store: Store }) {
  const watch = sealWatchOf(store);
  useEffect(() => watch.follow(), [watch]);
  const report = watch.report.value;
  if (watch.trouble.value !== '')
    return <p class={look.quiet}>The seal could not be compared: {watch.trouble.value}</p>;
  if (!report || report.state === 'none') return null;
  if (report.state === 'holds' || report.state === 'not calculated') {
    return (
      <p class={look.quiet}>
        <span aria-hidden="true">{'\u2713'} </span>“{report.sheet}” is sealed and as it was sealed.
      </p>
    );
  }
  return <Broken store={store} report={report} />;
}

function Broken({ store, report }: { readonly store: Store; readonly report: SealReport }) {
  const { sheet, state, differences, reasons } = report;
  const typed = differences.filter(({ group }) => group !== 'result');
  const first = (typed.length > 0 ? typed : differences)[0];
  const others = differences.length - 1;
  return (
    <div class={`${box.trouble} ${box.over}`} role="alert">
      <p class={box.what}>
        {state === 'unreadable'
          ? `The seal of “${sheet}” cannot be read.`
          : `“${sheet}” is no longer as it was sealed.`}
      </p>
      {first && (
        <p class={traced.step}>
          <span>
            {first.key} was {first.change}
            {others > 0 && `, and ${count(others, 'more thing')} with it`}. Now it is <code>{first.now}</code>
            {first.change !== 'added' &&
              '; what it was, no seal can say: it keeps a digest and not the words'}
            .
          </span>
          {isAddress(first.key) && <CellButton store={store} sheet={sheet} at={first.key} />}
        </p>
      )}
      {!first && reasons.map((reason) => <p key={reason}>{reason}</p>)}
      <div class={look.answers}>
        <Action
          onAct={() => {
            store.open('audit');
            void sealingOf(store).verify();
          }}
        >
          Show everything that differs
        </Action>
      </div>
    </div>
  );
}
