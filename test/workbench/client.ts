import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import vm from 'node:vm';
import type { Engine } from '../../src/workbench/engine/engine';
import { createWorkbench, type Workbench } from '../../src/workbench/host';
import { createNodeUniver } from './node';

/** The real client library of Excel, connected to a workbench without a screen. */
export interface TestHost {
  readonly Excel: typeof Excel;
  readonly OfficeExtension: typeof OfficeExtension;
  readonly workbench: Workbench;
  readonly engine: Engine;
  /** `Excel.run` with the client's own promises. */
  run<T>(batch: (context: Excel.RequestContext) => Promise<T>, options?: Excel.RunOptions): Promise<T>;
}

let script: vm.Script | undefined;

/**
 * Loads `@microsoft/office-js` into a context of its own, as a page would, and gives it our bridge. Nothing
 * of the client is replaced.
 */
export function createTestHost(): TestHost {
  const path = createRequire(import.meta.url).resolve('@microsoft/office-js/dist/excel-web-16.00.debug.js');
  script ??= new vm.Script(readFileSync(path, 'utf8'), { filename: path });
  const page: Record<string, unknown> = {
    console,
    setTimeout,
    clearTimeout,
    setInterval,
    clearInterval,
    Promise,
  };
  page.window = page;
  page.self = page;
  page.navigator = { userAgent: 'test', platform: 'test' };
  page.document = {
    URL: 'https://workbook.test/',
    getElementsByTagName: () => [],
    createElement: () => ({}),
    head: {},
  };
  page.location = { href: 'https://workbook.test/', search: '', hash: '' };
  vm.createContext(page);
  script.runInContext(page as vm.Context);
  const { Excel: client, OfficeExtension: extension } = page as unknown as Pick<
    TestHost,
    'Excel' | 'OfficeExtension'
  >;
  const workbench = createWorkbench(createNodeUniver());
  (extension as unknown as { HostBridge: { init(bridge: unknown): void } }).HostBridge.init(workbench.bridge);
  return {
    Excel: client,
    OfficeExtension: extension,
    workbench,
    engine: workbench.engine,
    run: (batch, options) =>
      options ? client.run(options, (context) => batch(context)) : client.run((context) => batch(context)),
  };
}
