import type { SheetReading } from '../../src/excel/host';
import { reportText } from '../../src/metrology/report';
import type { CellValue } from '../../src/sheets/book';
import { BUDGET_RESULT, type BudgetId } from '../../src/sheets/run/budgetid';
import { columnOf } from '../run/cell';

/** A comparison sheet as the pane shows it, result by result. */
export interface ComparisonView {
  readonly sheet: string;
  readonly results: readonly ComparedResult[];
  /** Rows without an uncertainty: uniformity, contrast, luminance, price. */
  readonly others: readonly { readonly label: string; readonly texts: readonly string[] }[];
  readonly names: readonly string[];
  /** Results whose two computations differ. */
  readonly differing: readonly string[];
}

export interface ComparedResult {
  readonly id: BudgetId;
  readonly label: string;
  readonly unit: string;
  readonly bars: readonly Bar[];
  readonly pairs: readonly Pair[];
}

/** One run's result; without a value it says why. */
export interface Bar {
  readonly name: string;
  readonly value?: number;
  readonly expanded?: number;
  /** "(2600 ± 120) lm", or "not measured". */
  readonly text: string;
}

export interface Pair {
  readonly name: string;
  /** "(300 ± 120) lm" */
  readonly text: string;
  readonly verdict: 'different' | 'not distinguishable' | '';
}

const OTHERS = [
  ['Uniformities', 'Uniformity, min \u00f7 max of nine'],
  ['Contrasts', 'Sequential contrast, : 1'],
  ['Luminances', 'Screen luminance, cd/m\u00b2'],
  ['Prices', 'Price'],
  ['PricesPerLumen', 'Price per white lumen'],
] as const;

export function comparisonView(reading: SheetReading): ComparisonView {
  const names = columnOf(reading, 'RunNames').map(String);
  const ids = Object.keys(BUDGET_RESULT) as BudgetId[];
  const results = ids.map((id): ComparedResult => {
    const { label, unit } = BUDGET_RESULT[id];
    const [values, us] = [columnOf(reading, `${id}Values`), columnOf(reading, `${id}U`)];
    return {
      id,
      label,
      unit,
      bars: names.map((name, i) => barOf(name, values[i] ?? null, us[i] ?? null, unit)),
      pairs: pairsOf(reading, id, unit),
    };
  });
  return {
    sheet: reading.sheet,
    names,
    results: results.filter(({ bars }) => bars.some(({ value }) => value !== undefined)),
    others: OTHERS.flatMap(([name, label]) => {
      const texts = reading.values[name]?.texts.flat() ?? [];
      return texts.some((text) => text !== '') ? [{ label, texts }] : [];
    }),
    differing: ids
      .filter((id) => columnOf(reading, `${id}Agreement`)[0] === 'differ')
      .map((id) => BUDGET_RESULT[id].label),
  };
}

function barOf(name: string, value: CellValue, expanded: CellValue, unit: string): Bar {
  if (typeof value !== 'number') return { name, text: typeof value === 'string' ? value : 'no result' };
  if (typeof expanded !== 'number') return { name, value, text: `${value} ${unit}`.trim() };
  return { name, value, expanded, text: reportText(value, expanded, unit) };
}

function pairsOf(reading: SheetReading, id: BudgetId, unit: string): Pair[] {
  const [differences, us, verdicts] = ['Differences', 'U', 'Verdicts'].map((part) =>
    columnOf(reading, `${id}Pair${part}`),
  );
  return columnOf(reading, 'PairNames').flatMap((name, i): Pair[] => {
    const [difference, u, verdict] = [differences?.[i], us?.[i], verdicts?.[i]];
    if (typeof difference !== 'number' || typeof u !== 'number') return [];
    const isKnown = verdict === 'different' || verdict === 'not distinguishable';
    return [{ name: String(name), text: reportText(difference, u, unit), verdict: isKnown ? verdict : '' }];
  });
}
