import type { ComponentChildren } from 'preact';
import type { Said } from '../store/said';
import { Action } from './Action';
import { focusUnfit } from './focus';
import { Report } from './Report';

export interface BuildProps {
  /** What the button says. */
  readonly children: ComponentChildren;
  readonly isOff: boolean;
  readonly report: Said;
  readonly onBuild: () => Promise<void>;
}

/** The button that builds a sheet from a form, and what came of it; what is wrong in the form gets the focus. */
export function Build({ children, isOff, report, onBuild }: BuildProps) {
  return (
    <>
      <Action isMain isOff={isOff} onAct={() => void onBuild().then(focusUnfit)}>
        {children}
      </Action>
      <Report words={report} />
    </>
  );
}
