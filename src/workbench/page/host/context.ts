import { secure } from './plainhttp';

/**
 * What the workbench answers to `isSetSupported`. It claims the level the project writes against and nothing above, so
 * that every guarded call takes its fallback here; members that the engine lacks throw `ApiNotAvailable` all the same.
 */
const SETS: Readonly<Record<string, string>> = {
  ExcelApi: '1.9',
  SharedRuntime: '1.1',
  CustomFunctionsRuntime: '1.2',
  // Asked for by the library itself before it sends results as arrays.
  CustomFunctions: '1.9',
  // Panes that a workbook opens by itself came with it; the pane is always open here.
  AddinCommands: '1.1',
  DialogApi: '1.2',
  Settings: '1.1',
  CompressedFile: '1.1',
  // Not in Office's published lists: the client library asks for it before it sends `delayForCellEdit`.
  DelayForCellEdit: '1.1',
};

/** How the pane knows where it is: a version that Excel does not have. */
const WORKBENCH_VERSION = '0.0.0.0';

/**
 * The answer to `ContextActivationManager_getAppContextAsync`: what stands in `Office.context`. Without `_docUrl`
 * the library never becomes ready; a partition key is not among it. `workbook` tells one workbook from another.
 */
export function appContext(
  id: string,
  addin: string,
  workbook: string,
  settings: ReadonlyMap<string, unknown>,
): Readonly<Record<string, unknown>> {
  return {
    _id: id,
    // OSF.AppName.ExcelWebApp
    _appName: 16,
    _appVersion: '16.01',
    _appUILocale: 'en-US',
    _dataLocale: 'en-US',
    _docUrl: secure(`${location.origin}/${workbook}.xlsx`),
    // May be read and written.
    _clientMode: 1,
    _settings: [...settings].map(([name, value]) => [name, JSON.stringify(value)]),
    _reason: 'documentOpened',
    _osfControlType: 1,
    _eToken: '',
    _correlationId: crypto.randomUUID(),
    _appInstanceId: id,
    _appMinorVersion: 0,
    _requirementMatrix: JSON.stringify(SETS),
    _hostFullVersion: WORKBENCH_VERSION,
    _clientWindowWidth: innerWidth,
    _clientWindowHeight: innerHeight,
    _addinName: 'Light Output Workbook',
    _appDomains: [secure(new URL(addin).origin)],
    // A task pane.
    _initialDisplayMode: 2,
  };
}
