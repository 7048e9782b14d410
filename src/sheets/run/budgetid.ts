import type { ResultName } from '../names/all';
import type { RunSetup } from '../runsetup';

/** Results of a run that have an uncertainty budget; the stem of the budget's names. */
export type BudgetId = 'White' | 'Colour' | 'Ratio' | 'Luminance' | 'Uniformity' | 'Contrast' | 'Board';

/** The result a budget is for. */
export interface BudgetResult {
  readonly name: ResultName;
  readonly label: string;
  /** In one word. */
  readonly short: string;
  /** On the sheet. */
  readonly unit: string;
  /** Of standard and expanded uncertainties, and of the parts of the budget. */
  readonly format: string;
  readonly parts: string;
  /** A fraction that people speak of in per cent. */
  readonly isPercent?: true;
  /** Its output in the model of `src/metrology/run`. */
  readonly output: string;
}

export const BUDGET_RESULT: Readonly<Record<BudgetId, BudgetResult>> = {
  White: {
    name: 'WhiteLightOutput',
    label: 'white light output',
    short: 'white',
    unit: 'lm',
    format: '#,##0.0',
    parts: '0.00',
    output: 'white',
  },
  Colour: {
    name: 'ColourLightOutput',
    label: 'colour light output',
    short: 'colour',
    unit: 'lm',
    format: '#,##0.0',
    parts: '0.00',
    output: 'colour',
  },
  Ratio: {
    name: 'ColourToWhite',
    label: 'colour to white ratio',
    short: 'ratio',
    unit: '',
    format: '0.0000',
    parts: '0.00000',
    output: 'ratio',
  },
  Luminance: {
    name: 'ScreenLuminance',
    label: 'screen luminance',
    short: 'luminance',
    unit: 'cd/m²',
    format: '#,##0.00',
    parts: '0.000',
    output: 'luminance',
  },
  Uniformity: {
    name: 'UniformityMinMax',
    label: 'uniformity (min ÷ max)',
    short: 'uniformity',
    unit: '',
    format: '0.00 %',
    parts: '0.00000',
    isPercent: true,
    output: 'uniformity',
  },
  Contrast: {
    name: 'SequentialContrast',
    label: 'sequential contrast',
    short: 'contrast',
    unit: ': 1',
    format: '#,##0.0',
    parts: '0.00',
    output: 'contrast',
  },
  Board: {
    name: 'BoardContrast',
    label: 'checkerboard contrast',
    short: 'board',
    unit: ': 1',
    format: '#,##0.0',
    parts: '0.00',
    output: 'board',
  },
};
export const BUDGET_IDS = Object.keys(BUDGET_RESULT) as BudgetId[];

/** What of a set-up decides which budgets there are. */
export type BudgetChoices = Pick<RunSetup, 'colour' | 'black' | 'checkerboard'>;

/** The budgets a set-up leads to. */
export function budgetIds({ colour, black, checkerboard }: BudgetChoices): readonly BudgetId[] {
  const has: Partial<Record<BudgetId, boolean>> = {
    Colour: colour !== 'none',
    Ratio: colour !== 'none',
    Contrast: black,
    Board: checkerboard,
  };
  return BUDGET_IDS.filter((id) => has[id] ?? true);
}

/** Results that grow with the image's area: all the model's figures of them scale with the true one. */
export const isLumens = (id: BudgetId): boolean => BUDGET_RESULT[id].unit === 'lm';

/** A contrast with a black too dark for the meter is a bound: its budget stays empty, and this says why. */
export const NO_U_OF_BOUND = 'no U of a bound';
export const canBeBound = (id: BudgetId): boolean => BUDGET_RESULT[id].unit === ': 1';
