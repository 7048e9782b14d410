import { ICommandService, LocaleType, mergeLocales, Univer } from '@univerjs/core';
import { FUniver } from '@univerjs/core/facade';
import { UniverSheetsConditionalFormattingPreset } from '@univerjs/preset-sheets-conditional-formatting';
import formatting from '@univerjs/preset-sheets-conditional-formatting/locales/en-US';
import {
  BEFORE_CELL_EDIT,
  CELL_INVERTED_INDEX_CACHE,
  FormulaDataModel,
  IDefinedNamesService,
  IDependencyManagerService,
  IFormulaCurrentConfigService,
  IFormulaDependencyGenerator,
  INTERCEPTOR_POINT,
  SheetInterceptorService,
  UniverSheetsCorePreset,
  ValueObjectFactory,
} from '@univerjs/preset-sheets-core';
import core from '@univerjs/preset-sheets-core/locales/en-US';
import {
  SheetsDataValidationValidatorService,
  UniverSheetsDataValidationPreset,
} from '@univerjs/preset-sheets-data-validation';
import validation from '@univerjs/preset-sheets-data-validation/locales/en-US';
import { hearFirst } from '../engine/first';
import { keepQuotedTexts } from '../engine/literals';
import { calculateQuicker } from '../engine/quicker';
import { compareShortRangesDirectly } from '../engine/shortranges';
import '@univerjs/preset-sheets-core/lib/index.css';
import '@univerjs/preset-sheets-conditional-formatting/lib/index.css';
import '@univerjs/preset-sheets-data-validation/lib/index.css';

/** The embedded spreadsheet, and its parts that show formulas and names; those are there once a workbook is. */
export interface ShownGrid {
  readonly api: FUniver;
  readonly editor: Pick<SheetInterceptorService, 'writeCellInterceptor' | 'intercept'>;
  readonly beforeCellEdit: typeof BEFORE_CELL_EDIT;
  readonly cellContent: typeof INTERCEPTOR_POINT.CELL_CONTENT;
  readonly names: IDefinedNamesService;
  /** Takes the spreadsheet out of the page. */
  end(): void;
}

/** Starts the embedded spreadsheet in an element of the page, without a workbook yet. */
export function startGrid(container: HTMLElement): ShownGrid {
  compareShortRangesDirectly(CELL_INVERTED_INDEX_CACHE);
  keepQuotedTexts(ValueObjectFactory);
  const univer = new Univer({
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: mergeLocales(core, formatting, validation) },
  });
  const presets = [
    // The workbench is for typing into sheets that the pane builds: no formatting toolbar.
    UniverSheetsCorePreset({ container, toolbar: false, ribbonType: 'simple' }),
    UniverSheetsDataValidationPreset(),
    UniverSheetsConditionalFormattingPreset(),
  ];
  for (const plugin of presets.flatMap((preset) => preset.plugins)) {
    if (Array.isArray(plugin)) univer.registerPlugin(plugin[0], plugin[1]);
    else univer.registerPlugin(plugin);
  }
  const injector = univer.__getInjector();
  calculateQuicker(injector, {
    FormulaDataModel,
    ICommandService,
    IDependencyManagerService,
    IFormulaCurrentConfigService,
    IFormulaDependencyGenerator,
  });
  const api = FUniver.newAPI(univer);
  hearFirst(api);
  return {
    api,
    get editor() {
      return injector.get(SheetInterceptorService);
    },
    beforeCellEdit: BEFORE_CELL_EDIT,
    cellContent: INTERCEPTOR_POINT.CELL_CONTENT,
    get names() {
      return injector.get(IDefinedNamesService);
    },
    end: () => {
      // It validates cells in idle moments, and would look for its workbook after that is gone.
      if (injector.has(SheetsDataValidationValidatorService))
        injector.get(SheetsDataValidationValidatorService).validatorRanges = async () => [];
      univer.dispose();
    },
  };
}
