import type { PlanBuilder } from '../builder';

/** A line of what is uncertain that is not typed but follows. */
export interface DerivedLine {
  readonly label: string;
  readonly name: string;
  readonly formula: string;
  readonly format: string;
  readonly unit: string;
  /** A text, or a formula that gives one. */
  readonly words: string;
}

/** Words that stand as they are, or a formula that gives them. */
export const wordsOf = (words: string) => (words.startsWith('=') ? { formula: words } : { value: words });

export function putLine(b: PlanBuilder, row: number, line: DerivedLine): void {
  const { label, name, formula, format, unit, words } = line;
  putDerived(b, row, label, name, formula, format, unit, words);
}

export function putDerived(
  b: PlanBuilder,
  row: number,
  label: string,
  name: string,
  formula: string,
  format: string,
  unit: string,
  words: string,
): void {
  b.put(`A${row}`, { role: 'label', value: label });
  b.put(`D${row}`, { role: 'unit', value: unit });
  b.wide(`E${row}:F${row}`, { role: 'derived', formula, format });
  b.wide(`G${row}:P${row}`, {
    role: 'check',
    ...wordsOf(words),
  });
  b.innerName(name, `E${row}`, label);
}
