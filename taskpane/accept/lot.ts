import type { SheetReading } from '../../src/excel/host';
import type { CellValue } from '../../src/sheets/book';
import { cellOf, columnOf } from '../run/cell';

/** Where a lot stands, as its sheet says it. */
export interface LotView {
  readonly sentence: string;
  readonly failures: readonly { readonly serial: string; readonly why: string }[];
  /** What the list leaves out. */
  readonly more: string;
}

/** Reading of an acceptance sheet → card. */
export function lotView(reading: SheetReading): LotView {
  const reasons = columnOf(reading, 'FailureReasons');
  return {
    sentence:
      text(cellOf(reading, 'LotSentence')) ||
      'The sheet has not been computed yet: let the program calculate it (F9).',
    failures: columnOf(reading, 'Failures').flatMap((serial, i) =>
      text(serial) === '' ? [] : [{ serial: text(serial), why: text(reasons[i]) || 'see the sheet' }],
    ),
    more: text(cellOf(reading, 'FailuresLeft')),
  };
}

function text(value: CellValue | undefined): string {
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}
