import { afterEach, expect, it, vi } from 'vitest';
import { fileBytes, openBytes } from '../../src/excel/file';
import { fileOf } from '../../src/workbench/page/office/file';

/* The workbook as a file, in slices, from the workbench's side of `Office.context.document`. */
function office(file: () => Promise<Uint8Array>, isSupported = true) {
  const getFileAsync = fileOf(file);
  vi.stubGlobal('Office', {
    context: { requirements: { isSetSupported: () => isSupported }, document: { getFileAsync } },
  });
  return getFileAsync;
}
afterEach(() => vi.unstubAllGlobals());

it('comes whole, however many slices it takes', async () => {
  // 9 MB are three slices of at most 4 MiB.
  const bytes = Uint8Array.from({ length: 9_000_000 }, (_, i) => (i * 7) % 251);
  office(async () => bytes);
  for (let time = 0; time < 3; time++) {
    const came = await fileBytes();
    expect(came.length).toBe(bytes.length);
    // Closed each time: a program keeps no more than two open.
    expect(Buffer.compare(came, bytes)).toBe(0);
  }
});

it('is refused in words where the program has none, or does not give it', async () => {
  office(async () => new Uint8Array(1), false);
  await expect(fileBytes()).rejects.toMatchObject({
    trouble: 'unavailable',
    remedy: expect.stringMatching(/light plain/),
  });
  office(() => Promise.reject(new Error('busy')));
  await expect(fileBytes()).rejects.toMatchObject({
    trouble: 'refused',
    detail: expect.stringMatching(/busy/),
  });
});

it('is opened as a new workbook in base64', async () => {
  const createWorkbook = vi.fn(async () => undefined);
  vi.stubGlobal('Excel', { createWorkbook });
  const bytes = Uint8Array.from({ length: 100_000 }, (_, i) => i % 256);
  await openBytes(bytes);
  expect(createWorkbook).toHaveBeenCalledWith(Buffer.from(bytes).toString('base64'));
});

it('of the workbench is refused as Office refuses it', async () => {
  const getFileAsync = office(async () => new Uint8Array(10));
  const asked = (type: string, options: Office.GetFileOptions = {}) =>
    new Promise<Office.AsyncResult<Office.File>>((resolve) => {
      getFileAsync(type, options, resolve);
    });
  expect(await asked('pdf')).toMatchObject({ status: 'failed' });
  expect(await asked('compressed', { sliceSize: 5_000_000 })).toMatchObject({ status: 'failed' });
  const first = await asked('compressed', { sliceSize: 4 });
  expect(first.value.sliceCount).toBe(3);
  await asked('compressed');
  expect(await asked('compressed')).toMatchObject({ status: 'failed', error: { code: 1002 } });
  first.value.closeAsync();
  expect(await asked('compressed')).toMatchObject({ status: 'succeeded' });
});
