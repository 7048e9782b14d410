import type { Step, Task } from '../task';

/** A reading that is about to be taken, with what is known around it. */
export interface Candidate {
  readonly task: Task;
  readonly step: Step;
  /** Number on the display. */
  readonly value: number;
  readonly factor: number;
  /** All steps in order, with what their cells hold now. */
  readonly steps: readonly Step[];
}

/** Something to look at again. It changes nothing by itself. */
export interface Doubt {
  readonly kind: DoubtKind;
  /** A question wants an answer before the reading is taken; a remark is only said. */
  readonly isQuestion: boolean;
  readonly message: string;
  /** What is noted on the sheet if the value is kept all the same. */
  readonly note: string;
}

type DoubtKind =
  | 'lone-one'
  | 'range'
  | 'outlier'
  | 'field'
  | 'digits'
  | 'ambient'
  | 'order'
  | 'drift'
  | 'mixed'
  | 'marker'
  | 'screen';

export type Guard = (candidate: Candidate) => Doubt | undefined;
