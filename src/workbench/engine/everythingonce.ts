import type { IFormulaCurrentConfigService } from '@univerjs/preset-sheets-core';

/**
 * After tables have spilled the engine calculates a second time, for what reads their cells. Where everything was to
 * be calculated it did all of it twice; the second time only that is still to be done.
 */
export function calculateEverythingOnce(config: IFormulaCurrentConfigService): void {
  const load = config.loadDirtyRangesAndExcludedCell.bind(config);
  config.loadDirtyRangesAndExcludedCell = (ranges, excluded) => {
    load(ranges, excluded);
    (config as unknown as { _forceCalculate: boolean })._forceCalculate = false;
  };
}
