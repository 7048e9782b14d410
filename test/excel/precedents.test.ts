import { afterEach, describe, expect, it, vi } from 'vitest';
import { areasOf, precedents } from '../../src/excel/precedents';

/*
 * Programs from ExcelApi 1.12 on (reference of `Range.getDirectPrecedents`). The workbench has no precedents, so a
 * small stand-in answers here as the reference says: addresses of one sheet joined by commas, `ItemNotFound` for none.
 */
function program(version: string, addresses: readonly string[] | Error) {
  vi.stubGlobal('Office', {
    context: {
      requirements: {
        isSetSupported: (_: string, asked: string) =>
          Number(asked.split('.')[1]) <= Number(version.split('.')[1]),
      },
    },
  });
  const asked: string[] = [];
  const found = { addresses, load: (names: string) => asked.push(names) };
  const range = { getDirectPrecedents: () => found };
  const noting = <T>(name: string, answer: T): T => {
    asked.push(name);
    return answer;
  };
  const sheet = { getRange: (cell: string) => noting(cell, range) };
  const context = {
    workbook: { worksheets: { getItem: (name: string) => noting(name, sheet) } },
    sync: async () => {
      if (addresses instanceof Error) throw addresses;
    },
  };
  return { context: context as unknown as Excel.RequestContext, asked };
}
afterEach(() => vi.unstubAllGlobals());

it('gives the areas that the program names', async () => {
  const { context, asked } = program('1.12', ["'Run 1'!B2:D4,'Run 1'!F2", 'Other!A1']);
  expect(await precedents(context, 'Run 1', 'B60')).toEqual([
    { sheet: 'Run 1', address: 'B2:D4' },
    { sheet: 'Run 1', address: 'F2' },
    { sheet: 'Other', address: 'A1' },
  ]);
  expect(asked).toEqual(['Run 1', 'B60', 'addresses']);
});

it('has no opinion in an older program, which is not even asked', async () => {
  const { context, asked } = program('1.9', []);
  expect(await precedents(context, 'Run 1', 'B60')).toBeUndefined();
  expect(asked).toEqual([]);
});

it('takes “no such item” for none, and passes any other error on', async () => {
  const error = (code: string) => Object.assign(new Error(code), { code });
  expect(await precedents(program('1.21', error('ItemNotFound')).context, 'Run 1', 'B60')).toEqual([]);
  await expect(
    precedents(program('1.21', error('GeneralException')).context, 'Run 1', 'B60'),
  ).rejects.toThrow();
});

describe('addresses', () => {
  it.each([
    ["'It''s, one'!$B$2:$D$4,'It''s, one'!F2", ["It's, one B2:D4", "It's, one F2"]],
    ['Run!A1, Run!B2:B9', ['Run A1', 'Run B2:B9']],
    ['', []],
  ])('%s', (text, wanted) => {
    expect(areasOf(text).map(({ sheet, address }) => `${sheet} ${address}`)).toEqual(wanted);
  });
});
