import { type Callback, fail, succeed } from './result';
import { strict } from './strict';

/** As in Excel: a larger slice is refused, and two files may be open at a time (reference of `Office.File`). */
const SLICE_MAX = 4_194_304;
const OPEN_MAX = 2;

/** `Office.context.document.getFileAsync` for the one format that a workbook here has, `compressed`. */
export function fileOf(file: () => Promise<Uint8Array>) {
  let open = 0;
  return (
    type: string,
    options: Office.GetFileOptions | Callback<Office.File>,
    then?: Callback<Office.File>,
  ): void => {
    const callback = typeof options === 'function' ? options : then;
    const size = (typeof options === 'object' ? options?.sliceSize : undefined) ?? SLICE_MAX;
    if (type !== 'compressed')
      fail(callback, 1000, 'File', `The workbench has no file of the type "${type}".`);
    else if (size > SLICE_MAX) fail(callback, 1001, 'File', 'The slice is too large.');
    else if (open >= OPEN_MAX) fail(callback, 1002, 'File', 'Two files are open already.');
    else {
      open++;
      file().then(
        (bytes) =>
          succeed(
            callback,
            sliced(bytes, size, () => {
              open--;
            }),
          ),
        (reason: unknown) => {
          open--;
          fail(callback, 5001, 'File', String(reason));
        },
      );
    }
  };
}

function sliced(bytes: Uint8Array, size: number, closed: () => void): Office.File {
  const sliceCount = Math.ceil(bytes.length / size);
  return strict('Office.File', {
    size: bytes.length,
    sliceCount,
    getSliceAsync: (index: number, callback?: Callback<Office.Slice>) => {
      if (index < 0 || index >= sliceCount) fail(callback, 1003, 'File', 'There is no such slice.');
      else {
        const data = [...bytes.subarray(index * size, (index + 1) * size)];
        succeed(callback, { index, data, size: data.length });
      }
    },
    closeAsync: (callback?: Callback<void>) => {
      closed();
      succeed(callback, undefined);
    },
  }) as unknown as Office.File;
}
