/*
 * A record of how the files beside it were made, run once at commit b2da8a1; see files.maker.ts.
 *
 * Third step: LibreOffice calculates every workbook anew, from its formulas; the values wait for the last step.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { CellValue } from '../../../../src/sheets/book';
import { recalculate } from '../../../tools/libreoffice';

const HERE = join(import.meta.dirname, '..');
const CALCULATED = join(tmpdir(), 'frozen-second-libreoffice.json');
/** Values by file, sheet and cell. */
type Calculated = Record<string, Record<string, Record<string, CellValue>>>;

it('LibreOffice calculates', async () => {
  const known: Calculated = existsSync(CALCULATED) ? JSON.parse(readFileSync(CALCULATED, 'utf8')) : {};
  const files = readdirSync(HERE).filter((name) => name.endsWith('.xlsx') && !(name in known));
  const books = await recalculate(
    files.map((name) => new Uint8Array(readFileSync(join(HERE, name)))),
    800_000,
  );
  books.forEach(({ sheets }, i) => {
    known[files[i]!] = Object.fromEntries(
      sheets.map(({ name, cells }) => [
        name,
        Object.fromEntries(Object.entries(cells).map(([at, { value }]) => [at, value])),
      ]),
    );
  });
  writeFileSync(CALCULATED, JSON.stringify(known));
  expect(files.length).toBeGreaterThan(0);
});
