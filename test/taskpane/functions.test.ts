// @vitest-environment node
import { readFileSync } from 'node:fs';
import { createContext, runInContext } from 'node:vm';
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

it('throws the errors of Office.js although their class comes after the functions', async () => {
  // `CustomFunctions.Error` exists only once the script of the program has loaded; office.js alone has `associate`
  // and `delayInitialization` (seen in @microsoft/office-js 1.1.110, office.debug.js and excel-web-16.00.debug.js).
  const associated = new Map<string, (...raw: unknown[]) => unknown>();
  const library: Record<string, unknown> = {
    associate: (id: string, run: (...raw: unknown[]) => unknown) => associated.set(id, run),
  };
  vi.stubGlobal('CustomFunctions', library);
  await import('../../taskpane/functions');
  library.Error = class extends Error {
    constructor(
      readonly code: string,
      message: string,
    ) {
      super(message);
    }
  };
  expect(() => associated.get('RATIO')!(800, 0)).toThrow(
    expect.objectContaining({ code: '#VALUE!', message: expect.stringContaining('white must be') }),
  );
  expect(() => associated.get('RATIO')!(800, null)).toThrow(expect.objectContaining({ code: '#N/A' }));
});

it('asks the program to wait for the functions before any module runs, and says that it listens', () => {
  const script = readFileSync('taskpane/public/early.js', 'utf8');
  const told: string[] = [];
  const page = {
    CustomFunctions: { delayInitialization: () => told.push('delayed') },
    Office: { onReady: () => told.push('listening') },
  };
  runInContext(script, createContext(page));
  expect(told).toEqual(['delayed', 'listening']);
  // In a browser without a program there is nothing to tell.
  runInContext(script, createContext({}));

  const html = readFileSync('taskpane/taskpane.html', 'utf8');
  const scripts = [...html.matchAll(/<script[^>]*src="([^"]+)"/g)].map((found) => found[1]!);
  expect(scripts[0]).toContain('office.js');
  expect(scripts.slice(1)).toEqual(['./early.js', './main.tsx']);
});

it('does nothing where there is no spreadsheet', async () => {
  await expect(import('../../taskpane/functions')).resolves.toBeDefined();
});
