import { join } from 'node:path';
import { expect, it } from 'vitest';
import { expectedOf } from '../../src/audit/expected';
import type { TraceNode } from '../../src/audit/trace/node';
import { traceText } from '../../src/audit/trace/text';
import { trace } from '../../src/audit/trace/trace';
import { viewOf } from '../../src/audit/view';
import { acceptance, certificate, comparison, EXAMPLES } from './examples';
import { renamed } from './rename';

function* all(node: TraceNode): Generator<TraceNode> {
  yield node;
  for (const child of node.children) yield* all(child);
}

function same(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= 1e-9 * Math.abs(b) + 1e-12;
  return (a === '' ? null : a) === (b === '' ? null : b) || JSON.stringify(a) === JSON.stringify(b);
}

it.each(Object.entries(EXAMPLES))(
  'every result of a sheet is traced to numbers that recompute: %s',
  (_, make) => {
    const book = make();
    const sheet = book.sheets.at(-1)!;
    const view = viewOf(sheet);
    const expected = expectedOf(view, book);
    if (!expected.known) throw new Error(expected.why);
    let lines = 0;
    for (const { at } of expected.audit.results(view, expected.plan)) {
      const tree = trace(book, sheet.name, at, { digits: 17 })!;
      for (const node of all(tree)) {
        expect(node.findings, `${at}: ${node.sheet} ${node.at}`).toEqual([]);
        for (const { at: cell, value, numbers, recomputed } of [node, ...(node.cells ?? [])]) {
          if (numbers === undefined) continue;
          lines++;
          expect(same(recomputed, value), `${at}: ${cell} is ${value}, recomputed ${recomputed}`).toBe(true);
        }
      }
    }
    expect(lines).toBeGreaterThan(20);
  },
);

it.each([
  ['comparison', comparison(), 'WhitePairU'],
  ['certificate', certificate(), 'CertifiedWhite'],
  ['acceptance', acceptance(), 'Nonconforming'],
])('a chain goes on into the sheets it is linked to: %s', (_, book, target) => {
  const sheet = book.sheets.at(-1)!.name;
  const nodes = [...all(trace(book, sheet, target)!)];
  expect(nodes.some((node) => node.sheet !== sheet)).toBe(true);
  expect(nodes.map(({ name }) => name)).toContain('WhiteReadings');
});

it('works on sheets that were renamed and moved', () => {
  const book = certificate();
  const here = traceText(trace(book, book.sheets.at(-1)!.name, 'CertifiedWhite')!);
  const other = renamed(book, (_, at) => `Anna's ${at}`);
  const there = traceText(
    trace({ ...other, sheets: [...other.sheets].reverse() }, "Anna's 1", 'CertifiedWhite')!,
  );
  expect(there.split('\n').length).toBe(here.split('\n').length);
});

// Regression: read by a person when they were written.
it.each([
  ['certified', certificate(), 'CertifiedWhite'],
  ['need', EXAMPLES.need!(), 'LargestWhite'],
])('reads like this: %s', async (name, book, target) => {
  const text = traceText(trace(book, book.sheets.at(-1)!.name, target)!);
  await expect(text).toMatchFileSnapshot(join(import.meta.dirname, 'golden', `${name}.txt`));
});
