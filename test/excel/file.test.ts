import { afterEach, expect, it, vi } from 'vitest';
import { fileBytes, openBytes } from '../../src/excel/file';

/*
 * The workbook as a file, in slices, as the client library hands them over (`Document.getFileAsync`, `Office.File`). The
 * library itself is asked in test/e2e/office.test.ts.
 */
const OPEN_MAX = 2;
function fileOf(file: () => Promise<Uint8Array>) {
  let open = 0;
  type Done = (result: unknown) => void;
  return (_type: string, { sliceSize }: { sliceSize: number }, done: Done): void => {
    const sliced = (bytes: Uint8Array) => ({
      size: bytes.length,
      sliceCount: Math.ceil(bytes.length / sliceSize),
      getSliceAsync: (index: number, then: Done) => {
        const data = [...bytes.subarray(index * sliceSize, (index + 1) * sliceSize)];
        then({ status: 'succeeded', value: { index, data, size: data.length } });
      },
      closeAsync: () => {
        open--;
      },
    });
    if (open >= OPEN_MAX) done({ status: 'failed', error: { code: 1002, message: 'Two files are open.' } });
    else {
      open++;
      file().then(
        (bytes) => done({ status: 'succeeded', value: sliced(bytes) }),
        (reason) => done({ status: 'failed', error: { code: 5001, message: String(reason) } }),
      );
    }
  };
}

function office(file: () => Promise<Uint8Array>, isSupported = true) {
  const getFileAsync = fileOf(file);
  vi.stubGlobal('Office', {
    context: { requirements: { isSetSupported: () => isSupported }, document: { getFileAsync } },
  });
}
afterEach(() => vi.unstubAllGlobals());

it('comes whole, however many slices it takes', async () => {
  // 9 MB are three slices of at most 4 MiB.
  let bytes = Uint8Array.from({ length: 9_000_000 }, (_, i) => (i * 7) % 251);
  office(async () => bytes);
  for (let time = 0; time < 3; time++) {
    const came = await fileBytes();
    expect(came.length).toBe(bytes.length);
    // Closed each time: a program keeps no more than two open.
    expect(Buffer.compare(came, bytes)).toBe(0);
    bytes = bytes.subarray(0, 9);
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

it.each([
  [1000, 'unavailable', /does not hand the workbook over as an \.xlsx file/],
  [5001, 'refused', /failed while it handed/],
  [5008, 'refused', /changed while it was handed over/],
  [5102, 'busy', /too much to do/],
  [5104, 'refused', /too large for this program/],
  [7000, 'refused', /not permitted to read/],
  [5999, 'refused', /^The program did not hand the workbook over\.$/],
])('is refused by number %i in words, with the number for a report', async (code, trouble, message) => {
  vi.stubGlobal('Office', {
    context: {
      requirements: { isSetSupported: () => true },
      document: {
        getFileAsync: (_type: string, _options: object, done: (result: unknown) => void) =>
          done({ status: 'failed', error: { code, message: 'its own words' } }),
      },
    },
  });
  await expect(fileBytes()).rejects.toMatchObject({
    trouble,
    message: expect.stringMatching(message),
    detail: `${code} its own words`,
  });
});

it('is opened as a new workbook in base64', async () => {
  const createWorkbook = vi.fn(async () => undefined);
  vi.stubGlobal('Excel', { createWorkbook });
  const bytes = Uint8Array.from({ length: 100_000 }, (_, i) => i % 256);
  await openBytes(bytes);
  expect(createWorkbook).toHaveBeenCalledWith(Buffer.from(bytes).toString('base64'));
});
