import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../src/functions/table';
import { expectGolden } from '../golden';
import { CellError, call, errorOf } from './call';
import { plainArgs } from './cases';
import { filled } from './grids';

/**
 * Every argument of every function is replaced in turn by what goes wrong in a spreadsheet. A grid gets the
 * wrong thing in its last cell as well, to see that the cell is named.
 */
const ERROR_CELL = { code: '#DIV/0!' };
const WRONG: readonly (readonly [string, unknown])[] = [
  ['left out', null],
  ['empty text', ''],
  ['empty cell (0)', 0],
  ['text', 'dim'],
  ['error cell', ERROR_CELL],
  ['negative', -1],
  ['infinite', Number.POSITIVE_INFINITY],
  ['TRUE', true],
];

const replaced = (args: readonly unknown[], i: number, value: unknown) => {
  const filledUp = Array.from({ length: Math.max(args.length, i + 1) }, (_, k) => args[k] ?? null);
  return filledUp.map((arg, k) => (k === i ? value : arg));
};
const lastCell = (grid: readonly (readonly unknown[])[], value: unknown) =>
  grid.map((row, r) => row.map((cell, c) => (r === grid.length - 1 && c === row.length - 1 ? value : cell)));
const isGrid = (value: unknown): value is unknown[][] => Array.isArray(value) && Array.isArray(value[0]);

function told(id: string, args: readonly unknown[]): string {
  const result = call(id, ...args);
  if (result instanceof CellError) return `${result.code} ${result.message}`;
  return Array.isArray(result) ? `a table of ${result.length} rows` : String(result);
}

/** What each function says to each wrong argument, as people read it; what an earlier function said alike is left out. */
function everyMessage(): string {
  const lines: string[] = [];
  const said = new Set<string>();
  const say = (line: string) => {
    if (!said.has(line)) lines.push(line);
    said.add(line);
  };
  for (const { id, params } of FUNCTIONS) {
    const args = plainArgs(id);
    lines.push(`${id}: all is well → ${told(id, args)}`);
    params.forEach(({ name, isMatrix }, i) => {
      for (const [what, value] of WRONG) {
        const given = args[i];
        const raw =
          isMatrix && isGrid(given) && value !== null
            ? lastCell(given, value)
            : isMatrix && value !== null
              ? [[value]]
              : value;
        say(`  ${name} ← ${what}: ${told(id, replaced(args, i, raw))}`);
      }
      say(`  ${name} ← 3 × 4 cells: ${told(id, replaced(args, i, filled(3, 4, 100)))}`);
    });
    lines.push('');
  }
  return lines.join('\n');
}

describe('messages', () => {
  it('stand as they were read and approved (regression)', () => {
    expectGolden(everyMessage(), new URL('./messages.txt', import.meta.url));
  });

  it('are whole sentences that name no JavaScript', () => {
    for (const line of everyMessage().split('\n')) {
      expect(line).not.toMatch(/undefined|\[object|null\b|NaN/);
      if (/#VALUE!|#N\/A/.test(line.split(': ')[1] ?? '')) expect(line).toMatch(/[.?]$/);
    }
  });
});

/** Arguments whose cells are spoken of row by row in the table that comes: a bad one takes no other row away. */
const TOLD_IN_THE_TABLE = ['serials', 'readings', 'range', 'ambient', 'limits', 'reference'];
const isToldInTheTable = (id: string, name: string) =>
  id.startsWith('BATCH') && TOLD_IN_THE_TABLE.includes(name);

describe('an argument that every function needs', () => {
  for (const { id, params } of FUNCTIONS) {
    params.forEach(({ name, isOptional, isMatrix }, i) => {
      const args = plainArgs(id);
      if (isOptional) {
        // Either limit may be left out where the other is given; the plain call has one.
        const isOnlyLimit = /^(lower|upper)$/.test(name) && args[i] !== undefined && args[i] !== null;
        it(`${id}: ${name} ${isOnlyLimit ? 'is the only limit' : 'may be left out'}`, () => {
          const result = call(id, ...replaced(args, i, null));
          if (isOnlyLimit)
            expect((result as CellError).message).toContain('lower limit, an upper limit or both');
          else expect(result).not.toBeInstanceOf(CellError);
        });
      } else if ((id !== 'FINDINGS' || !isMatrix) && !isToldInTheTable(id, name)) {
        it(`${id}: ${name} left out is #N/A`, () =>
          expect(errorOf(id, ...replaced(args, i, isMatrix ? lastCellBlank(args[i]) : null)).code).toBe(
            '#N/A',
          ));
        it(`${id}: an error cell in ${name} is #VALUE! and named`, () => {
          const value = isMatrix && isGrid(args[i]) ? lastCell(args[i], ERROR_CELL) : ERROR_CELL;
          const error = errorOf(id, ...replaced(args, i, value));
          expect(error.code).toBe('#VALUE!');
          expect(error.message).toContain('#DIV/0!');
        });
      }
      if (!isMatrix)
        it(`${id}: ${name} is one cell, not a range`, () =>
          expect(errorOf(id, ...replaced(args, i, filled(3, 4, 100))).message).toContain(
            'must be one cell; it is a range of 3 × 4.',
          ));
    });
  }
  const lastCellBlank = (given: unknown) => (isGrid(given) ? lastCell(given, '') : [['']]);
});

describe('the invocation object that Excel adds', () => {
  it.each(FUNCTIONS.map(({ id }) => id))('%s does not mistake it for an argument', (id) => {
    const { params } = FUNCTIONS.find((record) => record.id === id)!;
    const args = params.map((_, i) => plainArgs(id)[i] ?? null);
    expect(call(id, ...args, { address: 'A1' }, { address: 'A1' })).toEqual(call(id, ...args));
  });
});
