import type { ValueObjectFactory } from '@univerjs/preset-sheets-core';

/** What the engine makes the values of formulas with. */
type Values = typeof ValueObjectFactory;

/** Every workbook of a process shares the engine's values. */
const known = new WeakSet<Values>();

/**
 * A text that stands in quotes in a formula is a text, as in Excel. The engine looks at each as a person's typing,
 * every time it calculates: "16:9" became a time, and looking took a fifth of the calculation of a long table.
 */
export function keepQuotedTexts(values: Values): void {
  if (known.has(values)) return;
  known.add(values);
  const create = values.create.bind(values);
  values.create = (raw, isText) => create(raw, isText || isQuoted(raw));
}

function isQuoted(raw: unknown): boolean {
  return typeof raw === 'string' && raw.length > 1 && raw.startsWith('"') && raw.endsWith('"');
}
