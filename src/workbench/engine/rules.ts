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
  readonly type: 'ColorScale' | 'ContainsText';
  stopIfTrue: boolean;
  scale?: ScaleCriteria;
  text?: { readonly operator: 'Contains' | 'NotContains' | 'BeginsWith' | 'EndsWith'; readonly text: string };
  readonly look: ConditionalLook;
}
export interface ConditionalLook {
  fill?: string;
  color?: string;
  bold?: boolean;
  italic?: boolean;
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
  titleRows?: Rect;
  titleColumns?: Rect;
  /** In points, as far as somebody set them. */
  margins: Readonly<Record<string, number>>;
  /** Rows, counted from 0, above which a new page begins; from the top. */
  breaks: number[];
  /** Columns at whose left one begins, in the same way. */
  columnBreaks: number[];
  headersFooters: Record<string, string>;
}
export function newPage(): PageSetup {
  return {
    orientation: 'Portrait',
    zoom: { scale: 100 },
    headersFooters: {},
    margins: {},
    breaks: [],
    columnBreaks: [],
  };
}

/** `WorksheetProtectionOptions`: what stays allowed on a protected sheet. Excel's default is nothing. */
export type ProtectionOptions = Record<string, boolean | string>;
export interface Protection {
  readonly options: ProtectionOptions;
  readonly password?: string;
}
