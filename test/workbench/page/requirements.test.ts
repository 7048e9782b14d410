import { expect, test } from 'vitest';
import { isSetSupported } from '../../../src/workbench/page/office/requirements';

/** How Office compares versions: reference of `Office.RequirementSetSupport.isSetSupported`. */
test.each([
  ['ExcelApi', '1.9', true],
  ['ExcelApi', 1.9, true],
  ['ExcelApi', '1.1', true],
  ['ExcelApi', undefined, true],
  // A later minor version than 9, not an earlier one.
  ['ExcelApi', '1.10', false],
  ['ExcelApi', '2.1', false],
  ['SharedRuntime', '1.1', true],
  ['CustomFunctionsRuntime', '1.2', true],
  ['CustomFunctionsRuntime', '1.3', false],
  // How the client library itself asks, in its handling of `delayForCellEdit`.
  ['DelayForCellEdit', undefined, true],
  ['ExcelApiOnline', '1.1', false],
  ['WordApi', '1.1', false],
])('%s %s: %s', (name, version, expected) => {
  expect(isSetSupported(name, version)).toBe(expected);
});
