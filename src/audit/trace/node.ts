import type { CellValue } from '../../sheets/book';

/** One step of a chain: a cell or a named range, what it holds and where that comes from. */
export interface TraceNode {
  readonly sheet: string;
  /** `B12` or `B12:D14`. */
  readonly at: string;
  /** The name it goes by on its sheet. */
  readonly name?: string;
  readonly label: string;
  /** Value of a single cell. */
  readonly value: CellValue;
  /** Values of a range, row by row. */
  readonly values?: readonly (readonly CellValue[])[];
  /** Unit of the value; empty for a bare number. `%` means that the value is a fraction shown as per cent. */
  readonly unit: string;
  /** The formula as it stands in the workbook. */
  readonly formula?: string;
  /** The part of it that counts here, in words; then the same with the numbers put in. */
  readonly words?: string;
  readonly numbers?: string;
  /** What the formula gives with the cells as they stand. */
  readonly recomputed?: CellValue;
  /** Why this part of the formula counts: `meter unit = "lx"`. */
  readonly because: readonly string[];
  readonly definition?: string;
  /** The standard or the practice a formula is from; of a typed figure, where the figure is from. */
  readonly source?: string;
  /** Expanded uncertainty of a result that has a budget. */
  readonly uncertainty?: {
    readonly U: number;
    readonly k: number;
    readonly level: number;
    readonly at: string;
  };
  /** For a range of formulas: each of its cells; for a range of typed figures: those that say where they are from. */
  readonly cells?: readonly TracedCell[];
  /** Where the workbook differs from what was built, or a stored value from its formula. */
  readonly findings: readonly string[];
  /** Explained further up; its children stand there. */
  readonly isSeen: boolean;
  readonly children: readonly TraceNode[];
}

export interface TracedCell {
  readonly at: string;
  readonly label: string;
  readonly value: CellValue;
  readonly numbers?: string;
  readonly recomputed?: CellValue;
  /** Where a typed figure is from. */
  readonly source?: string;
}
