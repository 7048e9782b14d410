import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';

/**
 * Compares a text with a committed file, exactly. `UPDATE=1 npx vitest run …` writes the files anew; read the
 * difference before committing it.
 * @param url of the file, e.g. `new URL('./cases/full.txt', import.meta.url)`
 */
export function expectGolden(text: string, url: URL): void {
  const path = fileURLToPath(url);
  if (process.env.UPDATE === '1') writeFileSync(path, text);
  expect(existsSync(path), `${path} is missing: run the test with UPDATE=1 and read what it wrote`).toBe(
    true,
  );
  expect(text).toBe(readFileSync(path, 'utf8'));
}
