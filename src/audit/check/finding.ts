/** Something a check has found on a sheet. Nothing has been changed. */
export interface Finding {
  readonly sheet: string;
  /** Cell or range; undefined where it is about the sheet as a whole. */
  readonly at?: string;
  readonly kind: FindingKind;
  readonly severity: Severity;
  /** One sentence. */
  readonly message: string;
  readonly expected: string;
  readonly found: string;
  readonly remedy?: RemedyId;
}

/** `error`: a figure may be wrong. `warning`: a safeguard is missing. `note`: worth knowing. */
export type Severity = 'error' | 'warning' | 'note';
export const SEVERITIES: readonly Severity[] = ['error', 'warning', 'note'];

export type FindingKind =
  | 'formula'
  | 'constant'
  | 'text'
  | 'broken'
  | 'stale'
  | 'disagree'
  | 'recomputed'
  | 'method'
  | 'name'
  | 'validation'
  | 'lock'
  | 'protection'
  | 'format'
  | 'reading'
  | 'units'
  | 'version'
  | 'seal'
  /** What a certificate says of its run's seal. */
  | 'stamp'
  /** A result that a plain copy keeps as a value. */
  | 'kept'
  /** What a person sees is not what the cells hold. */
  | 'seen'
  | 'added'
  | 'draw';

/** What can be done about a finding, one by one, when a person asks for it. */
export type RemedyId = keyof typeof REMEDIES;

export const REMEDIES = {
  refresh: 'Refresh results: every formula is entered again.',
  'restore-formula': 'Put the planned formula back.',
  'restore-text': 'Put the planned text back.',
  'restore-name': 'Let the name point where it should.',
  'restore-validation': 'Set the input rule again.',
  'restore-format': 'Set the planned number format again.',
  'restore-lock': 'Lock or unlock the cell as planned.',
  protect: 'Protect the sheet again.',
  'read-again': 'Look at the reading, correct it or read again.',
  'new-sheet': 'Build a new sheet and take the readings over.',
  'bring-up-to-date': 'Bring the sheet up to date: a new one beside it, from what was typed.',
  clear: 'Empty the cell.',
} as const;
