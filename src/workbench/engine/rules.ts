import type { Rect } from '../../sheets/address';

/** A data validation in the API's own shape (`DataValidationRule`, `DataValidationPrompt`, `DataValidationErrorAlert`). */
export interface ValidationItem {
  range: Rect;
  rule: ValidationRuleData;
  prompt: { showPrompt: boolean; title: string; message: string };
  errorAlert: { showAlert: boolean; style: AlertStyle; title: string; message: string };
  ignoreBlanks: boolean;
}
export type AlertStyle = 'Stop' | 'Warning' | 'Information';
export type Operator =
  | 'Between'
  | 'NotBetween'
  | 'EqualTo'
  | 'NotEqualTo'
  | 'GreaterThan'
  | 'LessThan'
  | 'GreaterThanOrEqualTo'
  | 'LessThanOrEqualTo';
export interface Comparison {
  readonly operator: Operator;
  readonly formula1: string | number;
  readonly formula2?: string | number;
}
export interface ValidationRuleData {
  readonly wholeNumber?: Comparison;
  readonly decimal?: Comparison;
  readonly textLength?: Comparison;
  readonly date?: Comparison;
  readonly time?: Comparison;
  readonly list?: { readonly source: string; readonly inCellDropDown: boolean };
  readonly custom?: { readonly formula: string };
}

/** A conditional format; exactly one of the kinds is set. */
export interface ConditionalItem {
  readonly id: string;
  range: Rect;
  readonly type: 'ColorScale' | 'ContainsText' | 'CellValue';
  stopIfTrue: boolean;
  scale?: ScaleCriteria;
  text?: { readonly operator: 'Contains' | 'NotContains' | 'BeginsWith' | 'EndsWith'; readonly text: string };
  cellValue?: { readonly operator: Operator; readonly formula1: string; readonly formula2?: string };
  readonly look: ConditionalLook;
}
export interface ConditionalLook {
  fill?: string;
  color?: string;
  bold?: boolean;
  italic?: boolean;
  underline?: string;
  strikethrough?: boolean;
}
export interface ScaleCriterion {
  readonly type: string;
  readonly formula?: string | null;
  readonly color?: string;
}
export interface ScaleCriteria {
  readonly minimum: ScaleCriterion;
  readonly midpoint?: ScaleCriterion;
  readonly maximum: ScaleCriterion;
}

/** What `Worksheet.pageLayout` says. Zoom 0 pages stands for "as many as it takes". */
export interface PageSetup {
  area?: Rect;
  orientation: 'Portrait' | 'Landscape';
  zoom: { scale?: number; horizontalFitToPages?: number; verticalFitToPages?: number };
  centerHorizontally: boolean;
  centerVertically: boolean;
  printGridlines: boolean;
  printHeadings: boolean;
  titleRows?: Rect;
  /** Rows, counted from 0, above which a new page begins; from the top. */
  breaks: number[];
  margins: Record<'left' | 'right' | 'top' | 'bottom' | 'header' | 'footer', number>;
  headersFooters: Record<string, string>;
}
export function newPage(): PageSetup {
  return {
    orientation: 'Portrait',
    zoom: { scale: 100 },
    centerHorizontally: false,
    centerVertically: false,
    printGridlines: false,
    printHeadings: false,
    // Excel's "normal" margins in points: 0.7 in at the sides, 0.75 in above and below, 0.3 in to the header.
    margins: { left: 50.4, right: 50.4, top: 54, bottom: 54, header: 21.6, footer: 21.6 },
    headersFooters: {},
    breaks: [],
  };
}

/** `WorksheetProtectionOptions`: what stays allowed on a protected sheet. Excel's default is nothing. */
export type ProtectionOptions = Record<string, boolean | string>;
export interface Protection {
  readonly options: ProtectionOptions;
  readonly password?: string;
}
