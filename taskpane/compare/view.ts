import type { SheetReading } from '../../src/excel/host';
import type { CellValue } from '../../src/sheets/book';
import { BUDGET_IDS, BUDGET_RESULT, type BudgetId } from '../../src/sheets/run/budgetid';
import { columnOf } from '../run/cell';
import { reported } from '../run/reported';

/** A comparison sheet as the pane shows it, result by result. */
export interface ComparisonView {
  readonly sheet: string;
  readonly results: readonly ComparedResult[];
  /** Rows without an uncertainty: prices. */
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
interface Bar {
  readonly name: string;
  readonly value?: number;
  readonly expanded?: number;
  /** "(2600 ± 120) lm", or "not measured". */
  readonly text: string;
}

interface Pair {
  readonly name: string;
  /** "(300 ± 120) lm" */
  readonly text: string;
  readonly verdict: 'different' | 'not distinguishable' | '';
}

const OTHERS = [
  ['Prices', 'Price'],
  ['PricesPerLumen', 'Price per white lumen'],
] as const;

export function comparisonView(reading: SheetReading): ComparisonView {
  const names = columnOf(reading, 'RunNames').map(String);
  const results = BUDGET_IDS.map((id): ComparedResult => {
    const { label, unit } = BUDGET_RESULT[id];
    const [values, us] = [columnOf(reading, `${id}Values`), columnOf(reading, `${id}U`)];
    return {
      id,
      label,
      unit,
      bars: names.map((name, i) => barOf(id, name, values[i] ?? null, us[i] ?? null)),
      pairs: pairsOf(reading, id),
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
    differing: BUDGET_IDS.filter((id) => columnOf(reading, `${id}Agreement`)[0] === 'differ').map(
      (id) => BUDGET_RESULT[id].label,
    ),
  };
}

function barOf(id: BudgetId, name: string, value: CellValue, expanded: CellValue): Bar {
  if (typeof value !== 'number') return { name, text: typeof value === 'string' ? value : 'no result' };
  if (typeof expanded !== 'number') return { name, value, text: plain(id, value) };
  return { name, value, expanded, text: reported(id, value, expanded) };
}

/** A value whose doubt is not there yet. */
function plain(id: BudgetId, value: number): string {
  const { unit, isPercent } = BUDGET_RESULT[id];
  const digits = Number((isPercent ? 100 * value : value).toPrecision(4));
  return `${digits} ${isPercent ? '%' : unit}`.trim();
}

function pairsOf(reading: SheetReading, id: BudgetId): Pair[] {
  const [differences, us, verdicts] = (['Differences', 'U', 'Verdicts'] as const).map((part) =>
    columnOf(reading, `${id}Pair${part}`),
  );
  return columnOf(reading, 'PairNames').flatMap((name, i): Pair[] => {
    const [difference, u, verdict] = [differences?.[i], us?.[i], verdicts?.[i]];
    if (typeof difference !== 'number' || typeof u !== 'number') return [];
    const isKnown = verdict === 'different' || verdict === 'not distinguishable';
    return [{ name: String(name), text: reported(id, difference, u), verdict: isKnown ? verdict : '' }];
  });
}
