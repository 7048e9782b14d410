export type XlsxTrouble = 'damaged' | 'big' | 'macros' | 'locked' | 'format' | 'unwritable';

/** A file that cannot be read, or a workbook that cannot be written: what is wrong, and what to do about it. */
export class XlsxError extends Error {
  constructor(
    readonly trouble: XlsxTrouble,
    message: string,
    readonly remedy: string,
    options?: ErrorOptions,
  ) {
    super(message, options);
    this.name = 'XlsxError';
  }
}

/** What a workbook asks for and an .xlsx file cannot hold. */
export function unwritable(message: string, remedy: string, options?: ErrorOptions): XlsxError {
  return new XlsxError('unwritable', message, remedy, options);
}

/** A file that is not, or no longer, what a spreadsheet program wrote. `why` continues a sentence. */
export function damaged(why: string, options?: ErrorOptions): XlsxError {
  return new XlsxError(
    'damaged',
    `The file is damaged: ${why}.`,
    'Get the file again, or open it in a spreadsheet program, let it repair the file, and save it.',
    options,
  );
}
