import type { HostFacts } from '../../src/excel/host';
import type { Trouble } from '../store/trouble';
import { Action } from './Action';
import own from './TroubleBox.module.css';

export interface TroubleBoxProps {
  readonly trouble: Trouble;
  readonly facts: HostFacts;
  /** Of the whole pane, not of one part of a page: it stays in view. */
  readonly isOver?: boolean;
  readonly onDismiss?: () => void;
}

/** What went wrong, what to do, and what to put into a report. */
export function TroubleBox({ trouble, facts, isOver = false, onDismiss }: TroubleBoxProps) {
  return (
    <div class={isOver ? `${own.trouble} ${own.over}` : own.trouble} role="alert">
      <p class={own.what}>{trouble.message}</p>
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
