import { createExcelHost } from '../../src/excel/excelhost';
import type { Host } from '../../src/excel/host';
import { functionsMetadata } from '../../src/functions/metadata';
import { NAMESPACE } from '../../src/functions/table';
import { associateAll } from '../../src/functions/wrap';
import { createTestHost, type TestHost } from '../workbench/client';

/** `CustomFunctions.Error` as the workbench page defines it. */
class CellError extends Error {
  constructor(
    readonly code: string,
    message = '',
  ) {
    super(message);
  }
}

/**
 * Our host over the real client library and the embedded engine, custom functions registered: what the pane
 * talks to, without a screen. `version` is what the program calls itself. `Office` and `Excel` are globals there as in a page.
 */
export async function createPaneHost(
  version = '0.0.0.0',
  reply?: number,
): Promise<{ host: Host; test: TestHost }> {
  const test = createTestHost();
  const sets: Readonly<Record<string, number>> = { ExcelApi: 1.9 };
  Object.assign(globalThis, {
    Excel: test.Excel,
    Office: {
      onReady: async () => undefined,
      context: {
        document: { url: '' },
        diagnostics: { platform: 'OfficeOnline', host: 'Excel', version },
        requirements: {
          isSetSupported: (name: string, version: string) => {
            const [, minor = 0] = version.split('.').map(Number);
            return (sets[name] ?? 0) >= 1 + minor / 10 && minor < 10;
          },
        },
      },
    },
  });
  const implementations = new Map<string, (...raw: unknown[]) => unknown>();
  associateAll(
    (id, implementation) => implementations.set(id, implementation),
    () => CellError,
  );
  await test.workbench.registerFunctions(functionsMetadata() as never, implementations as never, NAMESPACE);
  return { host: await createExcelHost(reply), test };
}
