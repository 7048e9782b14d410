import { HostError, type HostTrouble } from './host';

interface Words {
  readonly trouble: HostTrouble;
  readonly message: string;
  readonly remedy: string;
}

/** Office.js error codes → what happened, and what to do (codes: learn.microsoft.com, "Excel JavaScript API error handling"). */
const WORDS: Readonly<Record<string, Words>> = {
  InvalidOperationInCellEditMode: {
    trouble: 'editing',
    message: 'A cell is being edited, so nothing was written.',
    remedy: 'Press Enter or Escape in the sheet, then try again.',
  },
  AccessDenied: {
    trouble: 'protected',
    message: 'The sheet is protected there, so nothing was written.',
    remedy:
      'Only the framed input cells take values. To change more, lift the protection under Review first.',
  },
  ItemNotFound: {
    trouble: 'missing',
    message: 'The sheet, or a name on it, is no longer there.',
    remedy: 'Was it renamed or deleted? Choose the sheet again; if a name was deleted, build a fresh sheet.',
  },
  ItemAlreadyExists: {
    trouble: 'taken',
    message: 'That name is taken in this workbook.',
    remedy: 'Try again: a free number will be added to the name.',
  },
  InvalidSelection: {
    trouble: 'busy',
    message: 'Another workbook was in front just then.',
    remedy: 'Bring this workbook to the front and try again.',
  },
  InactiveWorkbook: {
    trouble: 'busy',
    message: 'Another workbook was in front just then.',
    remedy: 'Bring this workbook to the front and try again.',
  },
  ActivityLimitReached: {
    trouble: 'busy',
    message: 'The spreadsheet program is busy.',
    remedy: 'Wait a moment and try again.',
  },
  ServiceNotAvailable: {
    trouble: 'busy',
    message: 'The spreadsheet program is not answering.',
    remedy: 'Wait a moment and try again.',
  },
  ApiNotFound: {
    trouble: 'unavailable',
    message: 'This spreadsheet program is too old for that step.',
    remedy: 'Use Excel 2021 or newer, or Excel on the web.',
  },
  ApiNotAvailable: {
    trouble: 'unavailable',
    message: 'This spreadsheet program cannot do that step.',
    remedy: 'Use Excel 2021 or newer, or Excel on the web.',
  },
  InvalidArgument: {
    trouble: 'refused',
    message: 'The spreadsheet program refused a value.',
    remedy: 'Please report it with the details below.',
  },
  UnsupportedOperation: {
    trouble: 'refused',
    message: 'The spreadsheet program does not allow that here.',
    remedy: 'In a workbook whose structure is protected no sheet can be added: lift that protection first.',
  },
};

/** Seen in Excel of 2026 on sheets without any password (office-js issue 6784). */
const NOT_LIFTED: Words = {
  trouble: 'protected',
  message: 'The program did not let the pane lift the protection of the sheet. Nothing was written.',
  remedy:
    'The pane sets no password. Lift the protection yourself, under Review, Unprotect Sheet, and try again; then protect the sheet again there. If a password is asked for, somebody else has set one.',
};

const UNKNOWN: Words = {
  trouble: 'unknown',
  message: 'The spreadsheet program reported an error.',
  remedy: 'Try again; if it stays, please report it with the details below.',
};

/** What `Excel.run` rejects with: `OfficeExtension.Error`. */
interface OfficeError {
  readonly code?: string;
  readonly message?: string;
  readonly debugInfo?: { readonly errorLocation?: string; readonly statement?: string };
}

/** Any rejection of the host → an error a person can act on. */
export function toHostError(reason: unknown): HostError {
  if (reason instanceof HostError) return reason;
  const { code = '', message = String(reason), debugInfo } = (reason ?? {}) as OfficeError;
  const isNotLifted = code === 'AccessDenied' && /\bunprotect$/.test(debugInfo?.errorLocation ?? '');
  const words = isNotLifted ? NOT_LIFTED : (WORDS[code] ?? UNKNOWN);
  const detail = [code, message, debugInfo?.errorLocation, debugInfo?.statement].filter(Boolean).join(' · ');
  return new HostError(words.trouble, words.message, words.remedy, detail);
}

export function isCode(reason: unknown, code: string): boolean {
  return typeof reason === 'object' && reason !== null && (reason as OfficeError).code === code;
}
