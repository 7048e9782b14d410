import { createRequire } from 'node:module';
import type { FUniver } from '@univerjs/core/facade';
import { emptyWorkbook } from '../../src/workbench/empty';
import { hearFirst } from '../../src/workbench/engine/first';
import { keepQuotedTexts } from '../../src/workbench/engine/literals';
import { calculateQuicker } from '../../src/workbench/engine/quicker';
import { compareShortRangesDirectly } from '../../src/workbench/engine/shortranges';

/**
 * The spreadsheet engine without a screen, for tests and tools, with one empty sheet called "Sheet1". It
 * comes from the engine's CommonJS build: its ES build does not load in Node 20.
 */
export function createNodeUniver(): FUniver {
  const require = createRequire(import.meta.url);
  const { Univer, LocaleType, LogLevel, ICommandService } =
    require('@univerjs/core') as typeof import('@univerjs/core');
  const { FUniver: Facade } = require('@univerjs/core/facade') as typeof import('@univerjs/core/facade');
  const preset =
    require('@univerjs/preset-sheets-node-core') as typeof import('@univerjs/preset-sheets-node-core');
  compareShortRangesDirectly(preset.CELL_INVERTED_INDEX_CACHE);
  keepQuotedTexts(preset.ValueObjectFactory);
  const univer = new Univer({ locale: LocaleType.EN_US, locales: {}, logLevel: LogLevel.ERROR });
  for (const plugin of preset.UniverSheetsNodeCorePreset().plugins) {
    if (Array.isArray(plugin)) univer.registerPlugin(plugin[0], plugin[1]);
    else univer.registerPlugin(plugin);
  }
  calculateQuicker(univer.__getInjector(), { ...preset, ICommandService });
  const api = Facade.newAPI(univer);
  hearFirst(api);
  api.createWorkbook(emptyWorkbook());
  return api;
}
