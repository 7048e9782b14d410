import type { PlanBuilder } from '../builder';

/** A line of what is uncertain that is not typed but follows: label, value, unit and words. */
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
  b.wide(`G${row}:L${row}`, {
    role: 'check',
    ...(words.startsWith('=') ? { formula: words } : { value: words }),
  });
  b.innerName(name, `E${row}`, label);
}
