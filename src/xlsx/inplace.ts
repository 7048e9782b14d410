import { strFromU8, strToU8 } from 'fflate';
import type { Book, CellValue } from '../sheets/book';
import { storedKind } from './cells';
import { XlsxError } from './error';
import { openParts, workbookParts } from './parts';
import { readXlsx } from './read';

/** A file whose parts are changed in place. */
interface Opened {
  readonly before: Book;
  readonly parts: ReturnType<typeof openParts>;
  /** The part that lists the sheets, and the folder it is in. */
  readonly path: string;
  readonly folder: string;
  readonly sheets: ReturnType<typeof workbookParts>['sheets'];
  edit(part: string, change: (text: string) => string): void;
}

/**
 * @param next what to do with a file that was saved as one that can be changed: "use that"
 * @throws XlsxError
 */
export async function openInPlace(
  bytes: Uint8Array,
  next: string,
  failed: (why: string) => XlsxError,
): Promise<Opened> {
  const before = await readXlsx(bytes);
  const parts = openParts(bytes, () => true);
  const { path, xml, sheets } = workbookParts(parts);
  if (/purl\.oclc\.org\/ooxml/.test(xml)) {
    throw new XlsxError(
      'format',
      'The file is a strict Open XML workbook, which cannot be changed in place.',
      `Save it as an ordinary Excel workbook (.xlsx) and ${next}.`,
    );
  }
  const edit = (part: string, change: (text: string) => string) => {
    const found = parts.get(part);
    if (!found) throw failed(`it has no ${part}`);
    parts.set(part, strToU8(change(strFromU8(found))));
  };
  return { before, parts, path, folder: path.slice(0, path.lastIndexOf('/') + 1), sheets, edit };
}

/** Whether a file says the same of two values: an empty text is an empty cell, and of an error its kind is stored. */
export function isSame(a: CellValue, b: CellValue): boolean {
  return plain(a) === plain(b);
}

function plain(value: CellValue): CellValue {
  if (value === null || value === '') return null;
  // No text that stands in a cell begins so.
  return typeof value === 'object' ? `\u0000${storedKind(value.error)}` : value;
}
