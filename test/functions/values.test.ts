import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../src/functions/table';
import { expectPrinted } from '../photometry/closeto';
import { CellError, call } from './call';
import { CASES } from './cases';

it('every function has known values, and nothing else has', () => {
  expect(Object.keys(CASES).sort()).toEqual(FUNCTIONS.map(({ id }) => id).sort());
});

describe.each(Object.entries(CASES))('%s', (id, cases) => {
  it.each(cases)('$name ($source)', ({ args, expect: wanted }) => {
    const result = call(id, ...args);
    if (result instanceof CellError) throw new Error(`${result.code} ${result.message}`);
    if (typeof wanted === 'string') expectPrinted(result as number, wanted);
    else if (!('cell' in wanted)) expect(result).toBe(wanted.text);
    else {
      const [row, column] = wanted.cell;
      if ('text' in wanted) expect((result as string[][])[row]![column]).toBe(wanted.text);
      else expectPrinted((result as number[][])[row]![column]!, wanted.printed);
    }
  });
});
