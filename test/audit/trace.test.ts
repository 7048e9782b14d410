import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { TraceNode } from '../../src/audit/trace/node';
import { traceRows, traceText } from '../../src/audit/trace/text';
import { trace } from '../../src/audit/trace/trace';
import { viewOf } from '../../src/audit/view';
import type { Book, BookSheet } from '../../src/sheets/book';
import { runResults } from '../../src/sheets/run';
import { uncertaintyResults } from '../../src/sheets/run/verdict';
import { randomRun } from '../sheets/randomrun';
import { cases } from '../tools/amount';
import { reckon } from './notation';
import { measured, smallest, withSheet } from './sheets';

const first = (book: Book) => book.sheets[0]!.name;

function* all(node: TraceNode): Generator<TraceNode> {
  yield node;
  for (const child of node.children) yield* all(child);
}

describe('the numbers of a trace', () => {
  const SEEDS = cases([1, 3, 6], [2, 4, 5]);
  it.each(SEEDS)('recompute to the value, for every result of run %i', (seed) => {
    const book = measured(seed);
    const { setup } = randomRun(seed);
    const view = viewOf(book.sheets[0]!);
    let reckoned = 0;
    for (const { name } of [...runResults(setup), ...uncertaintyResults(setup)]) {
      const tree = trace(book, first(book), name, { digits: 17 })!;
      const typed: string[] = [];
      for (const node of all(tree)) {
        expect(node.findings).toEqual([]);
        if (!node.isSeen && node.formula === undefined && !node.cells) typed.push(node.at);
        const lines = [node, ...(node.cells ?? [])];
        for (const { at, value, numbers, recomputed } of lines) {
          if (numbers === undefined) continue;
          expect(same(recomputed, value), `${name}: ${at} is ${value}, recomputed ${recomputed}`).toBe(true);
          const result = typeof value === 'number' ? reckon(numbers) : undefined;
          if (result === undefined) continue;
          reckoned++;
          expect(same(result, value), `${name}: ${at} ${numbers} = ${value}`).toBe(true);
        }
      }
      // The chain ends in what was typed, and in nothing else.
      for (const at of typed) {
        const cell = view.sheet.cells[at.split(':')[0]!];
        expect(cell?.formula, `${name} ends in ${at}`).toBeUndefined();
      }
      expect(typed.length, name).toBeGreaterThan(0);
    }
    expect(reckoned).toBeGreaterThan(500);
  });

  it('reach the readings from every light output', () => {
    const book = smallest();
    const tree = trace(book, first(book), 'WhiteLightOutput')!;
    const names = [...all(tree)].map(({ name }) => name);
    for (const name of [
      'WhiteReadings',
      'WhiteRange',
      'ImageLength',
      'AmbientReadings',
      'CalibrationFactor',
    ]) {
      expect(names).toContain(name);
    }
  });
});

function same(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= 1e-9 * Math.abs(b) + 1e-12;
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}

describe('a trace', () => {
  // Regression: read by a person and found clear when they were written.
  it.each([
    ['white', smallest(), 'WhiteLightOutput'],
    ['footlamberts', smallest(), 'ScreenFootlamberts'],
    ['expanded', smallest(), 'WhiteExpanded'],
    ['ratio', measured(6), 'ColourToWhite'],
    ['contrast', measured(3), 'SequentialContrast'],
  ])('reads like this: %s', async (name, book, target) => {
    const text = traceText(trace(book, first(book), target)!);
    await expect(text).toMatchFileSnapshot(join(import.meta.dirname, 'golden', `${name}.txt`));
  });

  it('is the same on a sheet that was renamed and moved, but for the name', () => {
    const book = smallest();
    const name = first(book);
    const renamed: BookSheet = {
      ...book.sheets[0]!,
      name: "Anna's run",
      names: book.sheets[0]!.names.map((each) => ({
        ...each,
        refersTo: each.refersTo.replace(/^='.*'!/, "='Anna''s run'!"),
      })),
    };
    const other = { ...measured(2), sheets: [...measured(2).sheets, renamed] };
    const here = traceText(trace(book, name, 'WhiteLightOutput')!);
    expect(traceText(trace(other, "Anna's run", 'WhiteLightOutput')!)).toBe(
      here.replaceAll(name, "Anna's run"),
    );
  });

  it('tells a finding where the formula is not the one built', () => {
    const book = smallest();
    const at = viewOf(book.sheets[0]!).places.get('imagearea')!.address;
    const altered = withSheet(book, 0, (sheet) => ({
      ...sheet,
      cells: { ...sheet.cells, [at]: { ...sheet.cells[at]!, formula: '=ImageWidth*ImageHeight*1.1' } },
    }));
    const text = traceText(trace(altered, first(book), 'WhiteLightOutput')!);
    expect(text).toMatch(
      /FINDING +The formula in B\d+ is not the one built\. Expected: =IF\(COUNT\(ImageLength,AspectAcross,AspectDown\)<3/,
    );
    expect(text).toMatch(/image width × image height × 1\.1/);
  });

  it('comes as rows too, all chains of text kept as text', () => {
    const book = smallest();
    const rows = traceRows(trace(book, first(book), 'WhiteLightOutput')!);
    expect(new Set(rows.map(({ length }) => length))).toEqual(new Set([10]));
    expect(rows[1]!.slice(0, 4)).toEqual([0, 'White light output', expect.closeTo(1035.0222, 3), 'lm']);
  });

  it('works from any cell, and ends where there is nothing to follow', () => {
    const book = smallest();
    expect(trace(book, first(book), 'A1')!.children).toEqual([]);
    const at = book.sheets[0]!.names.find(({ name }) => name === 'WhiteLightOutput')!;
    const cell = at.refersTo.split('!').at(-1)!;
    expect(trace(book, first(book), cell)!.name).toBe('WhiteLightOutput');
    expect(trace(book, 'No such sheet', 'A1')).toBeUndefined();
    expect(trace(book, first(book), 'no such name')).toBeUndefined();
  });

  it('does not go round in circles', () => {
    const sheet: BookSheet = {
      ...smallest().sheets[0]!,
      name: 'Circle',
      names: [],
      cells: { A1: { value: 1, formula: '=B1+1' }, B1: { value: 2, formula: '=A1+1' } },
    };
    const tree = trace({ sheets: [sheet], names: [] }, 'Circle', 'A1')!;
    expect([...all(tree)].length).toBeLessThan(5);
  });
});

it('golden traces say where they come from', () => {
  expect(readFileSync(join(import.meta.dirname, 'golden', 'white.txt'), 'utf8')).toContain(
    'ISO 11315-1:1997',
  );
});
