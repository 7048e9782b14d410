import type { Difference, SealReport, SealState } from '../../src/audit/seal/verify';
import look from '../components/look.module.css';
import { count } from '../parse/block';
import type { Store } from '../store';
import { CellButton } from './CellButton';
import { keysOf } from './keys';
import own from './SealVerdict.module.css';
import traced from './trace.module.css';

const HEADLINES: Readonly<Record<SealState, { readonly sign: string; readonly words: string }>> = {
  none: { sign: '\u2013', words: 'Not sealed.' },
  deleted: { sign: '\u2715', words: 'The seal was deleted.' },
  holds: { sign: '\u2713', words: 'The seal holds: everything is as it was sealed.' },
  'not calculated': {
    sign: '\u2713',
    words: 'The seal holds for all that was typed and built; some results are not calculated here.',
  },
  broken: { sign: '\u2715', words: 'The seal is broken.' },
  unreadable: { sign: '?', words: 'The seal cannot be read.' },
};

const BAD: ReadonlySet<SealState> = new Set(['deleted', 'broken', 'unreadable']);

/** What comparing a sheet with its seal came to, and each thing that differs. */
export function SealVerdict({ store, report }: { readonly store: Store; readonly report: SealReport }) {
  const { sheet, state, record, differences, signature, signer, reasons, history } = report;
  const { sign, words } = HEADLINES[state];
  const keys = keysOf(store);
  // One reading changes a hundred results: what a person did comes first.
  const changed = differences.filter(({ group }) => group !== 'result');
  const results = differences.filter(({ group }) => group === 'result');
  return (
    <div class={BAD.has(state) ? `${own.verdict} ${own.bad}` : own.verdict}>
      <h3>
        <span aria-hidden="true">{sign} </span>
        {words}
      </h3>
      {reasons.map((reason) => (
        <p key={reason} class={look.error}>
          {reason}
        </p>
      ))}
      {differences.length > 0 && <p>{count(differences.length, 'difference')} since it was sealed:</p>}
      {changed.length > 0 && <Differences store={store} sheet={sheet} label="Differences" list={changed} />}
      {results.length > 0 && (
        <details open={changed.length === 0}>
          <summary tabIndex={0}>
            {count(results.length, 'result')}
            {changed.length === 0 ? '' : ', as they follow from it or were changed too'}
          </summary>
          <Differences store={store} sheet={sheet} label="Results that differ" list={results} />
        </details>
      )}
      {record && (
        <dl class={traced.facts}>
          <div>
            <dt>sealed by</dt>
            <dd>
              {record.who || '(no name)'}, {timeWords(record.when)}, seal {record.sequence}
            </dd>
          </div>
          <div>
            <dt>SHA-256</dt>
            <dd>
              <code>{record.hash}</code>
            </dd>
          </div>
          {signature !== 'none' && (
            <div>
              <dt>signature</dt>
              <dd>
                {signature === 'valid' ? 'fits' : 'refused'}
                {signer && (
                  <>
                    , key <code class={traced.thumbprint}>{signer}</code>
                    {signer === keys.mine.value && ', which is yours'}
                    {signer === keys.expected.value && ', as expected'}
                  </>
                )}
              </dd>
            </div>
          )}
        </dl>
      )}
      {history.length > 0 && (
        <details>
          <summary tabIndex={0}>History</summary>
          <ul>
            {history.map(({ what, when, who, why }, i) => (
              <li key={i}>
                {what} {timeWords(when)} by {who || '(no name)'}
                {why && `: ${why}`}
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

interface DifferencesProps {
  readonly store: Store;
  readonly sheet: string;
  readonly label: string;
  readonly list: readonly Difference[];
}

function Differences({ store, sheet, label, list }: DifferencesProps) {
  return (
    <ul class={traced.findings} aria-label={label}>
      {list.map((difference) => (
        <li key={`${difference.group} ${difference.key}`}>
          <p class={traced.step}>
            <span>
              {what(difference)}{' '}
              <strong>{difference.isHost ? 'not calculated here' : difference.change}</strong>
            </span>
            {isPlace(difference) && <CellButton store={store} sheet={sheet} at={difference.key} />}
          </p>
          <p>
            now <code>{difference.now}</code>
          </p>
        </li>
      ))}
    </ul>
  );
}

const GROUP_WORDS = {
  cell: 'Cell',
  result: 'Result of',
  name: 'Name',
  rule: 'Input rule of',
  sheet: 'Sheet',
} as const;

function what({ group, key }: Difference): string {
  return `${GROUP_WORDS[group]} ${key}`;
}

function isPlace({ group }: Difference): boolean {
  return group === 'cell' || group === 'result' || group === 'rule';
}

/** `2026-11-25T09:30:00Z` → `2026-11-25 09:30:00 UTC`. */
function timeWords(when: string): string {
  return when.replace('T', ' ').replace('Z', ' UTC');
}
