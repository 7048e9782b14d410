import { FUNCTIONS, NAMESPACE } from './table';

/** The README's table of custom functions, in Markdown, one row a function. It is generated so that it cannot drift. */
export function functionTableMarkdown(): string {
  const rows = FUNCTIONS.map(({ id, summary, params, result, formula, source }) => {
    const names = params.map(({ name, isOptional }) => (isOptional ? `[${name}]` : name)).join(', ');
    return [`\`${NAMESPACE}.${id}(${names})\``, summary, result.unit, formula, source];
  });
  return [
    ['Function', 'What it gives', 'Unit', 'Formula', 'Source'],
    ['---', '---', '---', '---', '---'],
    ...rows,
  ]
    .map((cells) => `| ${cells.map((cell) => cell.replace(/\|/g, '\\|')).join(' | ')} |`)
    .join('\n');
}
