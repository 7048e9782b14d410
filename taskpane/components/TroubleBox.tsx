import type { HostFacts } from '../../src/excel/host';
import type { Trouble } from '../store/trouble';
import { Action } from './Action';

export interface TroubleBoxProps {
  readonly trouble: Trouble;
  readonly facts: HostFacts;
  readonly onDismiss?: () => void;
}

/** What went wrong, what to do, and what to put into a report. */
export function TroubleBox({ trouble, facts, onDismiss }: TroubleBoxProps) {
  return (
    <div class="trouble" role="alert">
      <p class="strong">{trouble.message}</p>
      <p>{trouble.remedy}</p>
      {trouble.detail && (
        <details>
          <summary tabIndex={0}>Details for a report</summary>
          <pre>{`${trouble.detail}\n${facts.platform}${facts.isWorkbench ? ', workbench' : ''}`}</pre>
        </details>
      )}
      {onDismiss && <Action onAct={onDismiss}>Close</Action>}
    </div>
  );
}
