import { beforeAll } from 'vitest';
import { viewOf } from '../../../src/audit/view';
import type { Book, BookSheet } from '../../../src/sheets/book';
import { readXlsx, writeXlsx } from '../../../src/xlsx';
import { sealed } from '../sealing';
import { smallest } from '../sheets';

/** A sealed run sheet as a file, and as it is read. */
export let bytes: Uint8Array;
export let book: Book;
export let own: BookSheet;
/** The cell with the light output of white, its verdict, and a reading. */
export let [result, verdict, reading] = ['', '', ''];
/** The plain formula beside the light output. */
export let plain = '';

/** Seals it before the tests of a file. */
export function sealedOnce(): void {
  beforeAll(async () => {
    bytes = await writeXlsx(await sealed(smallest()));
    book = await readXlsx(bytes);
    own = book.sheets[0]!;
    const at = (name: string) =>
      /\$([A-Z]+)\$(\d+)/
        .exec(own.names.find((each) => each.name === name)!.refersTo)!
        .slice(1)
        .join('');
    [result, reading] = [at('WhiteLightOutput'), at('WhiteReadings')];
    plain = viewOf(own).places.get('whitelightoutputplain')!.address;
    verdict = Object.keys(own.cells).find((cell) => own.cells[cell]!.value === 'pass')!;
  });
}
