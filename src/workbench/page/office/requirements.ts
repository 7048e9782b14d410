/**
 * What the workbench answers to `isSetSupported`. It claims the level the project writes against and nothing
 * above, so that every guarded call takes its fallback here; members that the engine lacks throw
 * `ApiNotAvailable` all the same.
 */
const SETS: Readonly<Record<string, number>> = {
  ExcelApi: 1.9,
  SharedRuntime: 1.1,
  CustomFunctionsRuntime: 1.2,
  DialogApi: 1.2,
  Settings: 1.1,
  CompressedFile: 1.1,
  // Not in Office's published lists: the client library asks for it before it sends `delayForCellEdit`.
  DelayForCellEdit: 1.1,
};

/** As Office answers: the version defaults to 1.1, and "1.10" is a later version than "1.9". */
export function isSetSupported(name: string, minVersion: string | number = '1.1'): boolean {
  const offered = SETS[name];
  if (offered === undefined) return false;
  const [major = 0, minor = 0] = String(minVersion).split('.').map(Number);
  const [hasMajor = 0, hasMinor = 0] = String(offered).split('.').map(Number);
  return major < hasMajor || (major === hasMajor && minor <= hasMinor);
}
