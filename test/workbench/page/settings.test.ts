import { expect, test } from 'vitest';
import { settings } from '../../../src/workbench/page/office/settings';

/** Reference of `Office.Settings`: values are in memory until `saveAsync`; an unknown name gives null. */
test('a value is kept with the workbook when it has been saved, not before', () => {
  const stored = new Map<string, unknown>();
  const first = settings(stored);
  first.set('step', { name: 'measure' });
  expect(first.get('step')).toEqual({ name: 'measure' });
  expect(settings(stored).get('step')).toBeNull();
  first.saveAsync();
  expect(settings(stored).get('step')).toEqual({ name: 'measure' });
});

test('a removed value is gone after saving', () => {
  const stored = new Map<string, unknown>([['step', 1]]);
  const all = settings(stored);
  all.remove('step');
  all.saveAsync();
  expect(stored.size).toBe(0);
});

test('saving calls back later, with success', async () => {
  const result = await new Promise<Office.AsyncResult<Office.Settings>>((resolve) =>
    settings(new Map()).saveAsync(resolve),
  );
  expect(result.status).toBe('succeeded');
});
