import { HostError } from '../../../src/excel/host';

/** Longer than any host needs; a call that waits behind an open cell is told from a lost one by looking again. */
export const ANSWER_MS = 10_000;

/** A call that did not answer in time; it may have been done all the same. */
export class NoAnswer extends HostError {
  constructor() {
    super(
      'busy',
      'The spreadsheet program has not answered.',
      'Readings are kept and written as soon as it does. Is a cell being edited? Press Enter or Escape there.',
    );
  }
}

/**
 * Waits for a call, but not for ever.
 * @param late told if the call ends after all, whichever way
 */
export function answered<T>(call: Promise<T>, late: () => void): Promise<T> {
  return new Promise((resolve, reject) => {
    let isLate = false;
    const timer = setTimeout(() => {
      isLate = true;
      reject(new NoAnswer());
    }, ANSWER_MS);
    const ended = (settle: () => void) => {
      if (isLate) return late();
      clearTimeout(timer);
      settle();
    };
    call.then(
      (value) => ended(() => resolve(value)),
      (error) => ended(() => reject(error)),
    );
  });
}
