import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { FunctionRecord, Result } from '../../src/functions/record';
import { FUNCTIONS } from '../../src/functions/table';
import { cases } from '../tools/amount';
import { CellError, call } from './call';

/*
 * Whatever a sheet can hand over comes to a number, a text, a table of them, or one of the two errors that show a
 * sentence. What a cell holds: 15 digits up to 9.99E+307, 32 767 characters ("Excel specifications and limits").
 * The number of calls is that of the suite; CALLS=100000 tries as many.
 */
const CALLS = Number(process.env.CALLS ?? 2000);

const cell: fc.Arbitrary<unknown> = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(0, 1, 2, 9, 16, 100, 248.5, 0.5, 0.95, 1000, 46351) },
  { weight: 2, arbitrary: fc.double() },
  {
    weight: 2,
    arbitrary: fc.constantFrom(-0, 1e308, -1.7e308, 5e-324, Number.NaN, Number.POSITIVE_INFINITY),
  },
  { weight: 2, arbitrary: fc.constantFrom('', null, undefined, true, false) },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      'over',
      '1.',
      'OL',
      'lx',
      'fc',
      '16:9',
      'white',
      '1 234,5 lx',
      'A\ud800',
      'x'.repeat(40_000),
    ),
  },
  { weight: 1, arbitrary: fc.constantFrom({ code: '#DIV/0!' }, { code: '#BUSY!' }, {}, [], () => 1) },
  { weight: 1, arbitrary: fc.string() },
);
const grid = fc
  .tuple(fc.integer({ min: 0, max: 14 }), fc.integer({ min: 0, max: 14 }))
  .chain(([rows, columns]) =>
    fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
      minLength: rows,
      maxLength: rows,
    }),
  );
const nine = fc.array(fc.array(cell, { minLength: 3, maxLength: 3 }), { minLength: 3, maxLength: 3 });
const argument = fc.oneof({ weight: 4, arbitrary: cell }, { weight: 3, arbitrary: nine }, grid);

/** A result that a cell can hold, or an error with a sentence of sensible length. */
function expectHeld(record: FunctionRecord, args: readonly unknown[], result: Result | CellError): void {
  const what = `LIGHT.${record.id}(${JSON.stringify(args)?.slice(0, 300)})`;
  if (result instanceof CellError) {
    expect(result.message.trim(), what).not.toBe('');
    // 20 sentences, each with what came: far below the 16 MB that were once handed over.
    expect(result.message.length, what).toBeLessThan(20_000);
    return;
  }
  for (const value of Array.isArray(result) ? result.flat() : [result]) {
    if (typeof value === 'number') {
      expect(Number.isFinite(value), what).toBe(true);
      expect(Object.is(value, -0), what).toBe(false);
    } else {
      expect(typeof value, what).toBe('string');
      expect(value.length, what).toBeLessThanOrEqual(32_767);
    }
  }
}

it('gives what a cell can hold, or says why not', { timeout: 60_000 + CALLS * 20 }, () => {
  fc.assert(
    fc.property(fc.constantFrom(...FUNCTIONS), fc.array(argument, { maxLength: 14 }), (record, args) => {
      expectHeld(record, args, call(record.id, ...args));
    }),
    { numRuns: CALLS, seed: 20261129 },
  );
});

const column = (length: number, value: unknown) => Array.from({ length }, () => [value]);
let made: unknown[][][] | undefined;
/** Made once for all functions. */
function lists(): unknown[][][] {
  made ??= cases<[number, unknown]>(
    [
      [150_000, 1],
      [1_048_576, ''],
    ],
    [
      [150_000, 'dim'],
      [150_000, ''],
      [1_048_576, 1],
      [1_048_576, 'dim'],
    ],
  ).map(([length, value]) => column(length, value));
  return made;
}

it.each(FUNCTIONS.map((record) => [record.id, record] as const))(
  'LIGHT.%s takes whole columns and long lists without falling over',
  (id, record) => {
    for (const list of lists()) {
      const args = record.params.map((_, i) => (i === 0 ? list : 1));
      expectHeld(record, [], call(id, ...args));
    }
  },
);

it('a table of more results than a page can wait for is refused before it is worked out', () => {
  const areas = [Array.from({ length: 2000 }, (_, i) => i + 1)];
  const refused = call('WHATIF', column(2000, 20), areas, 15);
  expect(refused).toBeInstanceOf(CellError);
  expect((refused as CellError).message).toMatch(/2000 × 2000 results; at most \d+ are worked out at once/);
});
