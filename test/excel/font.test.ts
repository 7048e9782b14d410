import { expect, it } from 'vitest';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { FONT, styleOf } from '../../src/sheets/style';
import { createPaneHost } from './host';

/*
 * New workbooks have had Aptos Narrow since 2023, Calibri before, at 12 points on a Mac (from memory of the programs'
 * defaults): widths and heights of ours are made for one font, so every cell that is planned names it.
 */
it('every cell of a sheet has the one font, at the size of its look', async () => {
  const { host, test } = await createPaneHost();
  const plan = runPlan(defaultRunSetup(), 'a1');
  const { sheet } = await host.build(plan);
  const fonts = await test.run(async (context) => {
    const worksheet = context.workbook.worksheets.getItem(sheet);
    const found = Object.keys(plan.cells).map((at) => {
      const font = worksheet.getRange(at).format.font;
      font.load('name,size');
      return { at, font };
    });
    const beside = worksheet.getRange('AZ200').format.font.load('name');
    await context.sync();
    expect(beside.name).not.toBe(FONT.name);
    return found.map(({ at, font }) => [at, font.name, font.size]);
  });
  expect(fonts).toEqual(
    Object.entries(plan.cells).map(([at, cell]) => [at, 'Calibri', styleOf(cell).size ?? 11]),
  );
});
