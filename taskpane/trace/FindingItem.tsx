import type { Cause } from '../../src/audit/check/causes';
import type { Severity } from '../../src/audit/check/finding';
import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { count } from '../parse/block';
import type { Store } from '../store';
import { CellButton } from './CellButton';
import own from './FindingItem.module.css';
import { adviceOf, repairName } from './repair';
import traced from './trace.module.css';

/** A sign and a word each: colour only adds to them. */
const SEVERITY: Readonly<Record<Severity, { readonly sign: string; readonly word: string }>> = {
  error: { sign: '\u2715', word: 'Error' },
  warning: { sign: '\u25b2', word: 'Warning' },
  note: { sign: '\u2022', word: 'Note' },
};

export interface FindingItemProps {
  readonly store: Store;
  readonly cause: Cause;
  /** True where an earlier finding offers the repair that settles this one too. */
  readonly isSettledAbove: boolean;
  readonly onRepair: () => Promise<void>;
}

/** One finding: how serious, where, what was expected and what stands there, and what can be done. */
export function FindingItem({ store, cause, isSettledAbove, onRepair }: FindingItemProps) {
  const { finding, others } = cause;
  const { sheet, at, severity, message, expected, found } = finding;
  const { sign, word } = SEVERITY[severity];
  const name = repairName(finding);
  const advice = adviceOf(finding);
  return (
    <li data-severity={severity}>
      <p class={traced.step}>
        <span class={own.serious}>
          <span aria-hidden="true">{sign} </span>
          {word}{' '}
          <span class={`${look.quiet} ${own.where}`}>
            {sheet === '' ? 'in the workbook' : `on \u201c${sheet}\u201d`}
          </span>
        </span>
        {at !== undefined && <CellButton store={store} sheet={sheet} at={at} />}
      </p>
      <p>{message}</p>
      <dl class={traced.facts}>
        <div>
          <dt>expected</dt>
          <dd>
            <code>{expected}</code>
          </dd>
        </div>
        <div>
          <dt>found</dt>
          <dd>
            <code>{found}</code>
          </dd>
        </div>
      </dl>
      {others.length > 0 && (
        <details>
          <summary tabIndex={0}>{count(others.length, 'more cell')} for the same cause</summary>
          <ul class={own.cells} aria-label="Cells of the same cause">
            {others.map((other) => (
              <li key={`${other.at} ${other.message}`}>
                <CellButton store={store} sheet={sheet} at={other.at!} />
              </li>
            ))}
          </ul>
        </details>
      )}
      {advice && <p class={look.quiet}>{advice}</p>}
      {name && isSettledAbove && <p class={look.quiet}>The refresh offered above is for this one too.</p>}
      {name && !isSettledAbove && (
        <Action isOff={store.troubles.busy.value !== ''} onAct={() => void onRepair()}>
          {name}
        </Action>
      )}
    </li>
  );
}
