import type { DecimalMark } from '../parse/number';
import { shown } from '../parse/quantity';
import type { ReadNumber } from '../parse/readnumber';
import { Action } from './Action';
import { Entry, type EntryProps } from './Entry';

export interface AskedEntryProps extends Omit<EntryProps, 'error' | 'type' | 'children'> {
  readonly read: ReadNumber;
  /** What is merely still missing is shown only after an attempt to build. */
  readonly isShown: boolean;
  readonly onDecide: (mark: DecimalMark) => void;
}

/** A number field that asks which decimal mark was meant where its text can be read in two ways. */
export function AskedEntry({ read, isShown, onDecide, hint, ...rest }: AskedEntryProps) {
  const { problem, question, echo } = read;
  return (
    <Entry
      {...rest}
      type="number"
      hint={echo ? <span class="echo">{echo}</span> : hint}
      error={isShown ? (question?.message ?? problem) : undefined}
    >
      {question && (
        <div class="answers">
          <Action onAct={() => onDecide('point')}>{shown(question.point)}</Action>
          <Action onAct={() => onDecide('comma')}>{shown(question.comma)}</Action>
        </div>
      )}
    </Entry>
  );
}
