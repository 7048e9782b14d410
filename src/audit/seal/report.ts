import type { Group } from './entry';
import type { SealRecord } from './record';
import type { SealEvent } from './register';

/** One thing that is not as it was sealed. */
export interface Difference {
  readonly group: Group;
  /** Address or name. */
  readonly key: string;
  readonly change: 'changed' | 'added' | 'removed';
  /** What stands there now: of a cell its contents, or its format, lock and look where the layout tells that they were changed. */
  readonly now: string;
  /** True for a result that this program could not compute because the add-in was absent. */
  readonly isHost: boolean;
}

/**
 * `none`: never sealed, or opened again. `deleted`: not sealed, though the workbook remembers a seal that was never taken
 * off by opening the sheet. `holds`: everything is as sealed. `not calculated`: all that was typed and built is as
 * sealed, but results lack because the add-in was absent. `broken`: something differs. `unreadable`: the seal
 * itself is damaged or newer than this program.
 */
export type SealState = 'none' | 'deleted' | 'holds' | 'not calculated' | 'broken' | 'unreadable';

export interface SealReport {
  readonly sheet: string;
  readonly state: SealState;
  readonly record?: SealRecord;
  readonly differences: readonly Difference[];
  readonly signature: 'none' | 'valid' | 'refused';
  /** Thumbprint of the key that signed, if the signature is valid. */
  readonly signer?: string;
  /** Whole sentences: what is wrong beyond differing cells. */
  readonly reasons: readonly string[];
  readonly history: readonly SealEvent[];
  /** Whether the workbook has no memory of this seal, or of another one in its place: then it may be made again. */
  readonly isForgotten: boolean;
}
