import { type Answer, METHOD } from './messages';

/** "Internal error": a file that is not open. */
const NO_FILE = 5001;
/** `OSF_DDA_Marshaling_File_FileType.Compressed`. */
const COMPRESSED = 1;
/** "The requested file type is not supported." */
const WRONG_TYPE = 1000;

interface Saving {
  readonly DdaSettingsMethod: { readonly Properties: readonly (readonly [string, string])[] };
}
/** By `OSF_DDA_Marshaling_File_ParameterKeys`: type and size of a slice, or a handle and the number of a slice. */
type FileRequest = Readonly<Record<0 | 1 | 2 | 3, number>>;

/**
 * `Office.context.document`: its small stored values, which live as long as the workbook stands in the page and are in
 * no file, and the workbook as a file in slices.
 */
export function documentMethods(
  settings: Map<string, unknown>,
  file: () => Promise<Uint8Array>,
): Readonly<Record<number, (data: never) => Promise<Answer> | Answer>> {
  const open = new Map<number, { readonly bytes: Uint8Array; readonly slice: number }>();
  let handles = 0;
  return {
    [METHOD.saveSettings]: ({ DdaSettingsMethod: { Properties } }: Saving) => {
      settings.clear();
      for (const [name, text] of Properties) settings.set(name, JSON.parse(text));
      return {};
    },
    [METHOD.loadSettings]: () => ({
      Properties: {
        Settings: [...settings].map(([Name, value]) => ({ Name, Value: JSON.stringify(value) })),
      },
    }),
    [METHOD.openFile]: async ({ 0: type, 1: slice }: FileRequest) => {
      if (type !== COMPRESSED) return { Error: WRONG_TYPE };
      const bytes = await file();
      open.set(++handles, { bytes, slice });
      return { 0: handles, 1: bytes.length };
    },
    [METHOD.readSlice]: ({ 2: handle, 3: index }: FileRequest) => {
      const found = open.get(handle);
      if (!found) return { Error: NO_FILE };
      const data = [...found.bytes.subarray(index * found.slice, (index + 1) * found.slice)];
      return { 0: data, 1: data.length };
    },
    [METHOD.closeFile]: ({ 2: handle }: FileRequest) => {
      open.delete(handle);
      return {};
    },
  };
}
