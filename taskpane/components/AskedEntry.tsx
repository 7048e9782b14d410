import type { Read } from '../form/field';
import type { DecimalMark } from '../parse/number';
import { shown } from '../parse/quantity';
import { Action } from './Action';
import { Entry, type EntryProps } from './Entry';
import look from './look.module.css';

export interface AskedEntryProps extends Omit<EntryProps, 'error'> {
  readonly read: Read;
  /** Whether what is wrong is said: what is merely still missing is not held against somebody who is typing. */
  readonly isShown: boolean;
  readonly onDecide: (mark: DecimalMark) => void;
}

/** A field with how its text was understood; it asks which decimal mark was meant where there are two ways. */
export function AskedEntry({ read, isShown, onDecide, hint, children, ...rest }: AskedEntryProps) {
  const { problem, question, echo } = read;
  return (
    <Entry
      {...rest}
      hint={echo ? <span class={look.echo}>{echo}</span> : hint}
      error={isShown ? (question?.message ?? problem) : undefined}
    >
      {isShown && question && (
        <div class={look.answers}>
          <Action onAct={() => onDecide('point')}>{shown(question.point)}</Action>
          <Action onAct={() => onDecide('comma')}>{shown(question.comma)}</Action>
        </div>
      )}
      {children}
    </Entry>
  );
}
