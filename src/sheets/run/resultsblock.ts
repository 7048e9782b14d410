import { FUNCTIONS } from '../../functions/table';
import type { PlanBuilder } from '../builder';
import { agreement } from '../phrases/agree';
import { RED } from '../style';
import type { RunResult } from './results';

/** Writes the results block from `row` on; returns the first row below it. */
export function putResults(
  b: PlanBuilder,
  row: number,
  results: readonly RunResult[],
  {
    title,
    agreement: agreementName,
    isPlainNamed = false,
    last: lastColumn,
  }: {
    readonly title: string;
    readonly agreement: string;
    /** Whether plain formulas have names too: of sheets with few of them. */
    readonly isPlainNamed?: boolean;
    /** The last column of the sheet: definitions reach to it. */
    readonly last: string;
  },
): number {
  b.put(`A${row}`, { role: 'heading', value: title });
  b.wide(`B${row}:C${row}`, { role: 'heading', value: 'by LIGHT function' });
  b.put(`D${row}`, { role: 'heading', value: 'unit' });
  b.wide(`E${row}:F${row}`, { role: 'heading', value: 'by plain formula' });
  b.wide(`G${row}:I${row}`, { role: 'heading', value: 'the two' });
  b.wide(`J${row}:${lastColumn}${row}`, { role: 'heading', value: 'definition' });
  const first = row + 1;
  for (const [i, result] of results.entries()) putResult(b, first + i, result, isPlainNamed, lastColumn);
  const last = row + results.length;
  b.alert({ range: `G${first}:G${last}`, begins: 'differ', ...RED });
  b.alert({ range: `G${first}:G${last}`, begins: 'see', ...RED });
  b.name(agreementName, `G${first}:G${last}`, 'Whether function and plain formula agree, result by result');
  return last + 1;
}

function putResult(
  b: PlanBuilder,
  row: number,
  result: RunResult,
  isPlainNamed: boolean,
  last: string,
): void {
  const { name, label, unit, format, needs, custom, twin, meaning, fn, isStep } = result;
  const record = FUNCTIONS.find(({ id }) => id === fn);
  if (!record) throw new Error(`No function ${fn} for ${name}`);
  b.put(`A${row}`, { role: 'label', value: label });
  // Not merged: Excel takes no array result in merged cells, and nobody has seen it take every single one. A text that is
  // too wide runs into the empty cell at its left.
  b.put(`B${row}`, { role: 'derived' });
  b.put(`C${row}`, { role: 'called', formula: `=${guard(needs, custom)}`, format });
  b.put(`D${row}`, { role: 'unit', value: unit });
  b.wide(`E${row}:F${row}`, { role: 'twin', formula: `=${guard(needs, twin)}`, format });
  b.wide(`G${row}:I${row}`, { role: 'check', formula: `=${agreement(`C${row}`, `E${row}`, TEXTS)}` });
  b.wide(`J${row}:${last}${row}`, { role: 'check', value: meaning });
  const words = `${label}${unit ? `, ${unit}` : ''}`;
  if (isStep) b.innerName(name, `C${row}`, words);
  else b.name(name, `C${row}`, words);
  const plain = [`${name}Plain`, `E${row}`, `${label} by plain formula`] as const;
  if (isPlainNamed) b.name(...plain);
  else b.innerName(...plain);
  b.note(`C${row}`, `${label}\n${record.formula}\nSource: ${record.source}`);
}

/**
 * Excel hands an empty cell to a custom function as 0, so the sheet asks first whether all is there: until
 * then the cell says how far it is and stays a text, which no later sum can mistake for a number.
 */
function guard(needs: RunResult['needs'], value: string): string {
  return needs.reduceRight(
    (rest, { range, count, otherwise = 'waiting', says = `"${otherwise}"` }) =>
      count === 1
        ? `IF(COUNT(${range})=0,${says},${rest})`
        : `IF(COUNT(${range})<${count},COUNT(${range})&" of ${count}",${rest})`,
    value,
  );
}

/** Texts that are results and not a state of waiting. */
const isResultText = (cell: string) =>
  `OR(LEFT(${cell},8)="at least",LEFT(${cell},4)="no U",LEFT(${cell},4)="pass",LEFT(${cell},4)="fail",LEFT(${cell},4)="cond")`;

const TEXTS = { results: isResultText, idle: 'waiting', unclear: 'see remarks' };
