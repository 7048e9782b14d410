import { expect, test } from 'vitest';
import { strict } from '../../../src/workbench/page/office/strict';

const context = strict('Office.context', { host: 'Excel', officeTheme: undefined });

test('a member that is there is given, also one that is undefined on purpose', () => {
  expect(context.host).toBe('Excel');
  expect(context.officeTheme).toBeUndefined();
});
test('any other is an error with its full name', () => {
  expect(() => (context as { mailbox?: unknown }).mailbox).toThrow('Office.context.mailbox is not provided');
});
test('the language’s own questions are answered, so that it can be awaited and printed', async () => {
  expect(await context).toBe(context);
  expect(JSON.stringify(context)).toBe('{"host":"Excel"}');
});
