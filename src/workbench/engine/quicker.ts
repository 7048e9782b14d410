import type { ICommandService, Injector } from '@univerjs/core';
import type {
  FormulaDataModel,
  IDependencyManagerService,
  IFormulaCurrentConfigService,
  IFormulaDependencyGenerator,
} from '@univerjs/preset-sheets-core';
import { keepDependencies } from './dependencieskept';
import { calculateEverythingOnce } from './everythingonce';
import { FormulasKept } from './formulaskept';
import { workRangesOutOnce } from './rangesonce';

/** By what the engine's parts are asked for: its builds for the browser and for Node have their own. */
interface Identifiers {
  readonly ICommandService: typeof ICommandService;
  readonly FormulaDataModel: typeof FormulaDataModel;
  readonly IDependencyManagerService: typeof IDependencyManagerService;
  readonly IFormulaCurrentConfigService: typeof IFormulaCurrentConfigService;
  readonly IFormulaDependencyGenerator: typeof IFormulaDependencyGenerator;
}

/** Takes work out of the engine's calculation that comes to the same every time. Before the first workbook is made. */
export function calculateQuicker(injector: Pick<Injector, 'get'>, by: Identifiers): void {
  const dependencies = injector.get(by.IDependencyManagerService);
  const config = injector.get(by.IFormulaCurrentConfigService);
  workRangesOutOnce(dependencies);
  calculateEverythingOnce(config);
  const known = new FormulasKept(injector.get(by.FormulaDataModel), injector.get(by.ICommandService));
  keepDependencies(injector.get(by.IFormulaDependencyGenerator), dependencies, config, known);
}
