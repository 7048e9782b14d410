// @vitest-environment node
import { signal } from '@preact/signals';
import { expect, it } from 'vitest';
import { createLogging } from '../../../taskpane/batch/logging';
import type { LogBatch, LogRow } from '../../../taskpane/batch/logrow';

/* Serial numbers and readings are invented. */

it('of a log in the order of the batch, a bad line keeps its place until it is put right', async () => {
  const batch = signal<LogBatch | undefined>({
    readings: 'nine points white',
    unit: 'lx',
    serials: ['K-1', 'K-2', 'K-3', 'K-4'],
    filled: [false, false, false, false],
    isAmbientByRow: false,
  });
  const written: (readonly LogRow[])[] = [];
  const logging = createLogging(batch, async (rows) => {
    written.push(rows);
    const filled = batch.value!.filled.map((was, i) => was || rows.some(({ target }) => target === i));
    batch.value = { ...batch.value!, filled };
    return true;
  });
  const lines = Array.from(
    { length: 36 },
    (_, i) => `${i + 1};25.11.2026;14:05:${10 + (i % 50)};${200 + 3 * i}`,
  );
  const bad = lines.map((line, i) => (i === 12 || i === 30 ? `${line.slice(0, -3)}dim` : line));
  logging.paste(bad.join('\n'));
  expect(logging.clean.value.map(({ serial }) => serial)).toEqual(['K-1', 'K-3']);
  await logging.take();
  expect(logging.report.value).toBe('18 lines written. 18 lines could not be taken and stay above.');
  expect(logging.text.value).toBe(bad.join('\n'));
  // The sheet has two units with readings now; the lines are still those of the units they were.
  expect(logging.read.value!.rows.map(({ serial }) => serial)).toEqual(['K-1', 'K-2', 'K-3', 'K-4']);
  expect(logging.clean.value).toEqual([]);
  logging.paste(lines.map((line, i) => (i === 30 ? bad[i]! : line)).join('\n'));
  expect(logging.clean.value.map(({ serial }) => serial)).toEqual(['K-2']);
  await logging.take();
  logging.paste(lines.join('\n'));
  await logging.take();
  expect(written.map((rows) => rows.map(({ serial }) => serial))).toEqual([['K-1', 'K-3'], ['K-2'], ['K-4']]);
  expect(logging.text.value).toBe('');
  expect(logging.report.value).toBe('9 lines written.');
});

it('a file that cannot be taken leaves what was pasted', async () => {
  const logging = createLogging(signal(undefined), async () => true);
  logging.paste('K-1;900');
  await logging.choose({ name: 'huge.log', size: 1e9 } as File);
  expect(logging.text.value).toBe('K-1;900');
  expect(logging.note.value).toBe('“huge.log” is too large for a log of 5000 units; it was not read.');
});
