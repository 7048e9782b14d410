import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { Report } from '../components/Report';
import type { BatchStep } from './state';

/** How far a long action is, with a way to stop it; and what the last one came to. */
export function UnderWay({ step }: { readonly step: BatchStep }) {
  const done = step.progress.value;
  return (
    <div class={look.underWay} role="status">
      {done !== undefined && (
        <>
          <progress max={1} value={done} aria-label="how far it is" />
          <Action onAct={step.stop}>Stop</Action>
        </>
      )}
      {step.report.value && <Report words={step.report.value} />}
    </div>
  );
}
