import type { Read } from '../form/field';
import type { SetupTexts } from './field';

/** A meter's calibration older than this is noted (common practice). */
const YEAR_MS = 366 * 86_400_000;

/** A calibration of long ago is worth a word; one after the measurement is a slip. */
export function calibratedBefore(text: string, { date }: SetupTexts): Read | undefined {
  if (text === '') return undefined;
  const age = Date.parse(`${date}T00:00:00Z`) - Date.parse(`${text}T00:00:00Z`);
  if (age < 0) return { problem: 'Calibrated on: this is after the date of the measurement.' };
  return age > YEAR_MS
    ? { echo: 'More than a year before the measurement: the sheet will show the date.' }
    : undefined;
}

export function dueAfter(text: string, { date }: SetupTexts): Read | undefined {
  return text !== '' && date !== '' && text <= date
    ? { echo: 'The calibration is due: the meter may be off by more than its data sheet says.' }
    : undefined;
}
