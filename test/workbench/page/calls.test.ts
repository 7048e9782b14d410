import { expect, test } from 'vitest';
import type { Entry } from '../../../src/workbench/page/host/addin';
import { Calls } from '../../../src/workbench/page/host/calls';

/*
 * Calls and results as the client library reads and writes them (excel-web-16.00.debug.js, `CustomFunctionProxy`): a call
 * is a message of category 1 and type 1000, `[number, id, arguments, address, flags]`.
 */
function calling() {
  const sent: unknown[][] = [];
  const calls = new Calls((entries: readonly Entry[]) => {
    sent.push(entries.map(({ category, type, message }) => [category, type, JSON.parse(message)]));
  });
  return { calls, sent };
}

test('a call before the add-in is ready goes when it is, and again to one that is loaded anew', async () => {
  const { calls, sent } = calling();
  const result = calls.call('OUTPUT', [[[1, 2]], null], 'Run!A1');
  expect(sent).toEqual([]);
  calls.ready();
  expect(sent).toEqual([[[1, 1000, [1, 'OUTPUT', [[[1, 2]], null], 'Run!A1', 4]]]]);
  calls.gone();
  calls.ready();
  expect(sent).toHaveLength(2);
  calls.take([[1, true, 7, [0]]]);
  await expect(result).resolves.toBe(7);
  calls.gone();
  calls.ready();
  expect(sent).toHaveLength(2);
});

test('calls of one calculation go together', async () => {
  const { calls, sent } = calling();
  calls.ready();
  const both = [calls.call('A', [], 'S!A1'), calls.call('B', [], 'S!A2')];
  await Promise.resolve();
  expect(sent.map((entries) => entries.length)).toEqual([2]);
  calls.take([
    [2, true, [[1], [2]], [0]],
    [1, true, null, [0]],
  ]);
  expect(await Promise.all(both)).toEqual([null, [[1], [2]]]);
});

/** Numbers of `_getCustomFunctionResultErrorCodeFromErrorCode`; what has none of its own is #VALUE!. */
test.each([
  [1, '#N/A'],
  [5, '#DIV/0!'],
  [6, '#NUM!'],
  [7, '#VALUE!'],
  [8, '#NULL!'],
  [2, '#VALUE!'],
  [0, '#VALUE!'],
])('the error number %i is %s', async (number, code) => {
  const { calls } = calling();
  calls.ready();
  const result = calls.call('A', [], 'S!A1');
  calls.take([[1, false, 'the ninth reading is missing', number, [0]]]);
  await expect(result).rejects.toMatchObject({ code, message: 'the ninth reading is missing' });
});
