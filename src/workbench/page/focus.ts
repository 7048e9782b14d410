import { FOCUS } from './host/messages';

/** Where the keyboard goes that leaves the pane: on to the beginning of the page, back to the divider before it. */
export function leaveFrame(action: number): void {
  if (action === FOCUS.tabExit || action === FOCUS.exitNoFocusable)
    document.querySelector<HTMLElement>('#new')?.focus();
  if (action === FOCUS.tabExitShift || action === FOCUS.exitNoFocusableShift)
    document.querySelector<HTMLElement>('#divider')?.focus();
}
