import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { readXlsx, XlsxError } from '../../xlsx';
import { Failure } from '../failure';
import { readBytes } from '../files';
import { errorLine, linesOf, type RegisterLine } from './lines';

/** A workbook to be read: its folder, and its path in it. */
export interface Task {
  readonly folder: string;
  readonly workbook: string;
}

/** What a workbook says; a file that cannot be read says why. Nothing is thrown. */
export async function readWorkbook({ folder, workbook }: Task): Promise<RegisterLine[]> {
  let sha256: string | null = null;
  try {
    const bytes = await readBytes(join(folder, workbook));
    sha256 = createHash('sha256').update(bytes).digest('hex');
    return await linesOf(await readXlsx(bytes), workbook, sha256);
  } catch (error) {
    const isForeseen = error instanceof XlsxError || error instanceof Failure;
    const words = error instanceof Error ? error.message : String(error);
    const why = isForeseen
      ? words
      : `Something went wrong that this program did not foresee (${words.slice(0, 300)}).`;
    return [errorLine(workbook, why, { sha256 })];
  }
}
