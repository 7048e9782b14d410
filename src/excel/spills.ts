import { isTableFormula } from '../audit/formula/evaluate';
import { cellName, cellsOf, rectOf } from '../sheets/address';

/** Formulas and values of the used range of a sheet, loaded. */
interface Loaded {
  readonly address: string;
  readonly formulas: readonly (readonly unknown[])[];
  readonly values: readonly (readonly unknown[])[];
}

/** Where array results begin, and what they fill. */
export type Spills = ReadonlyMap<string, string>;

/**
 * Asks for what array results fill; answered after the next sync. Programs may tell the formula of the first cell for
 * every cell that it fills, so equal formulas side by side are asked about, and calls of ours that fill tables.
 *
 * @param tellsSpills whether the program says what an array result fills (ExcelApi 1.12)
 */
export function askSpills(sheet: Excel.Worksheet, used: Loaded, tellsSpills: boolean): () => Spills {
  if (!tellsSpills) return () => new Map();
  const asked = firstCells(used).map((at) => {
    const area = sheet.getRange(at).getSpillingToRangeOrNullObject();
    area.load('address');
    return { at, area };
  });
  return () =>
    new Map(
      asked.flatMap(({ at, area }) =>
        area.isNullObject ? [] : [[at, area.address.slice(area.address.lastIndexOf('!') + 1)]],
      ),
    );
}

function firstCells({ address, formulas, values }: Loaded): string[] {
  const { row, column } = rectOf(address.slice(address.lastIndexOf('!') + 1));
  return formulas.flatMap((line, r) =>
    line.flatMap((formula, c) => {
      if (!isFormulaOf(formula, values[r]![c])) return [];
      const isFirst = formula !== formulas[r - 1]?.[c] && formula !== line[c - 1];
      const isRepeated = formula === formulas[r + 1]?.[c] || formula === line[c + 1];
      return isFirst && (isRepeated || isTableFormula(String(formula)))
        ? [cellName(row + r, column + c)]
        : [];
    }),
  );
}

/** The cells that array results fill beside their own. */
export function filledBy(spills: Spills): Set<string> {
  return new Set([...spills].flatMap(([from, area]) => cellsOf(area).filter((at) => at !== from)));
}

/** Text that begins with "=" reads the same as a formula and as a value. */
export function isFormulaOf(formula: unknown, value: unknown): boolean {
  return typeof formula === 'string' && formula.startsWith('=') && formula !== value;
}
