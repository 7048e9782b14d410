import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { Action } from './Action';
import look from './look.module.css';

export interface PerSheetProps {
  /** Unique in the page. */
  readonly id: string;
  /** What the list is a list of: "Run". */
  readonly label: string;
  readonly sheets: readonly string[];
  readonly isOff?: boolean;
  readonly onAct: (sheet: string) => void;
  /** What the button of a sheet says. */
  readonly children: (sheet: string) => ComponentChildren;
}

/** With more sheets than this, buttons for each would hide what stands below them. */
const BUTTONS = 5;

/** One deed for one of several sheets: a button each, or a list and one button where they are many. */
export function PerSheet({ id, label, sheets, isOff = false, onAct, children }: PerSheetProps) {
  const [picked, pick] = useState('');
  const button = (sheet: string) => (
    <Action key={sheet} isOff={isOff} onAct={() => onAct(sheet)}>
      {children(sheet)}
    </Action>
  );
  if (sheets.length <= BUTTONS) return <>{sheets.map(button)}</>;
  // The picked one may have been renamed or deleted meanwhile.
  const shown = sheets.includes(picked) ? picked : sheets[0]!;
  return (
    <div class={look.field}>
      <label for={id}>{label}</label>
      <select id={id} value={shown} onChange={(event) => pick(event.currentTarget.value)}>
        {sheets.map((sheet) => (
          <option key={sheet} value={sheet}>
            {sheet}
          </option>
        ))}
      </select>
      {button(shown)}
    </div>
  );
}
