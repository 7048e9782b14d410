// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { inFormat } from '../../../taskpane/run/informat';

/** What a spreadsheet program shows for the same format, by hand; grouping by SI Brochure 5.4.4 (from memory). */
describe('a number in the format of its cell', () => {
  it.each([
    [1484.36, '#,##0.0', '1484.4'],
    [12484.36, '#,##0.0', '12\u202f484.4'],
    [885.5361, '#,##0.00', '885.54'],
    [0.9656, '0.000', '0.966'],
    [0.224, '0.0 %', '22.4 %'],
    [-0.0081, '+0.0 %;-0.0 %;0.0 %', '\u22120.8 %'],
    [0.0081, '+0.0 %;-0.0 %;0.0 %', '+0.8 %'],
    [0, '+0.0 %;-0.0 %;0.0 %', '0.0 %'],
    [-0.00001, '+0.0 %;-0.0 %;0.0 %', '0.0 %'],
    [4743.6, '#,##0', '4744'],
  ])('%d in %s is %s', (value, format, text) => {
    expect(inFormat(value, format)).toBe(text);
  });
});
