import type { CellValue } from '../../sheets/book';
import type { TraceLine } from '../../sheets/trace';
import type { TraceNode } from './node';
import { valueText } from './write';

const DIGITS = 7;

/** A chain as indented text, the result first and what was typed last. */
export function traceText(node: TraceNode): string {
  return `${lines(node, 0).join('\n')}\n`;
}

function lines(node: TraceNode, depth: number): string[] {
  const indent = '    '.repeat(depth);
  const more = (name: string, text: string | undefined) =>
    text === undefined || text === '' ? [] : [`${indent}  ${name.padEnd(10)}${text}`];
  const head = `${indent}${headline(node)}`;
  if (node.isSeen) return [`${head}  (explained above)`];
  return [
    head,
    ...more('in words', node.words),
    ...more('numbers', node.numbers && `${node.numbers} = ${valueText(node.recomputed ?? null, DIGITS)}`),
    ...node.because.flatMap((reason) => more('because', reason)),
    ...more('is', node.definition),
    ...more('source', node.source),
    ...more('formula', node.formula),
    ...(node.cells ?? []).flatMap(({ at, label, value, numbers, source }) =>
      more(
        '',
        `${at} ${label}: ${numbers === undefined ? '' : `${numbers} = `}${valueText(value, DIGITS)}${source === undefined ? '' : `; ${source}`}`,
      ),
    ),
    ...node.findings.flatMap((finding) => more('FINDING', finding)),
    ...node.children.flatMap((child) => lines(child, depth + 1)),
  ];
}

/** `White light output = 1056.2 lm ± 61 lm (k = 2, 95.45 %)  [Run 1!B60]`. */
function headline(node: TraceNode): string {
  return `${node.label} = ${shownValue(node)}  [${node.sheet}!${node.at}]`;
}

/** `1056.2 lm ± 61 lm (k = 2.00, 95.45 %, E79)`, `9 values, lx`, `"lx"`. */
export function shownValue({ value, values, unit, uncertainty, cells }: TraceNode): string {
  const shown = values
    ? cells
      ? `${values.flat().length} values`
      : values.map((row) => row.map((each) => valueText(each, DIGITS)).join('  ')).join(' | ')
    : withUnit(value, unit);
  const suffix = values && unit !== '' && unit !== '%' ? `, ${unit}` : '';
  const spread = uncertainty
    ? ` ± ${withUnit(Number(uncertainty.U.toPrecision(2)), unit)} (k = ${uncertainty.k.toFixed(2)}, ${Number((100 * uncertainty.level).toPrecision(6))} %, ${uncertainty.at})`
    : '';
  return `${shown}${suffix}${spread}`;
}

function withUnit(value: CellValue, unit: string): string {
  if (typeof value !== 'number') return valueText(value, DIGITS);
  if (unit === '%') return `${valueText(100 * value, DIGITS)} %`;
  return `${valueText(value, DIGITS)}${unit === '' ? '' : ` ${unit}`}`;
}

/** A chain as rows of a table, with a heading row. */
export function traceRows(node: TraceNode): (string | number)[][] {
  const heading = [
    'Level',
    'Quantity',
    'Value',
    'Unit',
    'Sheet',
    'Cell',
    'In words',
    'With numbers',
    'Source',
    'Findings',
  ];
  return [
    heading,
    ...traceLines(node).map(({ level, what, value, unit, cell, words, numbers, source, findings }) => [
      level,
      what,
      value,
      unit,
      node.sheet,
      cell,
      words,
      numbers,
      source,
      findings,
    ]),
  ];
}

/** A chain step by step, the result first. */
export function traceLines(node: TraceNode, level = 0): TraceLine[] {
  const { label, value, values, unit, at, isSeen, cells = [] } = node;
  const listed = values && !node.cells;
  const own: TraceLine = {
    level,
    what: label,
    value: listed
      ? values
          .flat()
          .map((each) => valueText(each, DIGITS))
          .join('; ')
      : plain(value),
    unit,
    cell: at,
    words: isSeen ? 'explained above' : (node.words ?? ''),
    numbers: isSeen ? '' : (node.numbers ?? ''),
    formula: isSeen ? '' : (node.formula ?? ''),
    source: isSeen ? '' : (node.source ?? ''),
    findings: node.findings.join(' '),
  };
  if (isSeen) return [own];
  return [
    own,
    ...cells.map((cell) => ({
      level: level + 1,
      what: cell.label,
      value: plain(cell.value),
      unit,
      cell: cell.at,
      words: '',
      numbers: cell.numbers ?? '',
      formula: '',
      source: cell.source ?? '',
      findings: '',
    })),
    ...node.children.flatMap((child) => traceLines(child, level + 1)),
  ];
}

function plain(value: CellValue): string | number {
  return typeof value === 'number'
    ? value
    : value === null
      ? ''
      : valueText(value, DIGITS).replace(/^"|"$/g, '');
}
