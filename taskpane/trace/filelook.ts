import { type Host, HostError } from '../../src/excel/host';
import type { Book, BookSheet, FileRemark } from '../../src/sheets/book';

/** What the workbook holds beyond what cells tell, as the program would save it now. */
interface FileLook {
  readonly remarks: readonly FileRemark[];
  /** By the sheet's name. */
  readonly drawn: ReadonlyMap<string, Pick<BookSheet, 'merges' | 'notes' | 'alerts' | 'scales'>>;
}

/**
 * Programs tell cells, and little of what lies over them or how they are drawn: merged cells, notes, conditional
 * formats, drawings, settings. The file they hand over tells all of it, as to the command line.
 *
 * @returns why not, in words, where the program hands none over or its file is not read
 */
export async function lookIntoFile(host: Host): Promise<FileLook | string> {
  const { readXlsx, remarksOf, XlsxError } = await import('../../src/xlsx');
  try {
    const bytes = await host.file();
    const { sheets } = await readXlsx(bytes);
    return {
      remarks: remarksOf(bytes),
      drawn: new Map(
        sheets.map(({ name, merges, notes, alerts, scales }) => [name, { merges, notes, alerts, scales }]),
      ),
    };
  } catch (error) {
    if (error instanceof XlsxError || error instanceof HostError) return error.message;
    throw error;
  }
}

/** A workbook as its cells tell, with what its file tells beside them. */
export function withFileLook(book: Book, { drawn }: FileLook): Book {
  return { ...book, sheets: book.sheets.map((sheet) => ({ ...sheet, ...drawn.get(sheet.name) })) };
}
