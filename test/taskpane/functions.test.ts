import { afterEach, expect, it, vi } from 'vitest';
import { FUNCTIONS } from '../../src/functions/table';

afterEach(() => {
  vi.unstubAllGlobals();
  vi.resetModules();
});

it('registers every custom function as soon as the script runs', async () => {
  const associated = new Map<string, (...raw: unknown[]) => unknown>();
  vi.stubGlobal('CustomFunctions', {
    associate: (id: string, implementation: (...raw: unknown[]) => unknown) =>
      associated.set(id, implementation),
    Error: class extends Error {
      constructor(
        readonly code: string,
        message: string,
      ) {
        super(message);
      }
    },
  });
  await import('../../taskpane/functions');
  expect([...associated.keys()]).toEqual(FUNCTIONS.map(({ id }) => id));
  // 248 on the × 10 range reads 2480 lx: common practice.
  expect(associated.get('ILLUMINANCE')!(248, 'lx', 10, null, {})).toBe(2480);
  expect(() => associated.get('RATIO')!(800, 0)).toThrow('white must be greater than 0');
});

it('does nothing where there is no spreadsheet', async () => {
  await expect(import('../../taskpane/functions')).resolves.toBeDefined();
});
