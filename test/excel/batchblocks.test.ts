import { expect, it } from 'vitest';
import { functionsMetadata } from '../../src/functions/metadata';
import { NAMESPACE } from '../../src/functions/table';
import { associateAll } from '../../src/functions/wrap';
import { batchPlan } from '../../src/sheets/batch';
import type { CellName } from '../../src/sheets/names/all';
import { batchSetup } from '../sheets/batchcases';
import { createPaneHost } from './host';

/** Lines of invented units, in three blocks. */
const LINES = 410;

it('one changed reading hands the lines of its block to the function and no others', async () => {
  const { host, test } = await createPaneHost();
  const handed: number[] = [];
  const implementations = new Map<string, (...raw: unknown[]) => unknown>();
  associateAll(
    (id, own) =>
      implementations.set(id, (...raw) => {
        if (id === 'BATCH') handed.push((raw[0] as unknown[]).length);
        return own(...raw);
      }),
    () => Error as never,
  );
  await test.workbench.registerFunctions(functionsMetadata() as never, implementations as never, NAMESPACE);
  const settled = () => test.engine.calculation.settled();
  const { sheet } = await host.build(batchPlan(batchSetup({ lines: LINES, ambient: 'none' }), 'blocks'));
  const readings = (lines: number) => Array.from({ length: lines }, () => Array<number>(9).fill(80));
  await host.writeBlocks(sheet, [{ name: 'Readings', row: 0, column: 0, values: readings(LINES) }]);
  await settled();

  handed.length = 0;
  await host.writeBlocks(sheet, [{ name: 'Readings', row: 205, column: 0, values: [[89]] }]);
  await settled();
  expect(handed).toEqual([200]);
  const shown = async (name: CellName, row: number, column = 0) =>
    (await host.readCells(sheet, [{ name, row, column }]))[0];
  // (89 + 8 × 80) ÷ 9 × 10 × 2.5 m², by arithmetic; white stands second in the function's table.
  expect(await shown('UnitWhite', 205)).toBeCloseTo((729 / 9) * 25, 8);
  expect(await shown('FunctionTable', 205, 1)).toBeCloseTo((729 / 9) * 25, 8);
  for (const row of [0, 199, 200, 205, 400, 409]) expect(await shown('Agreement', row)).toBe('agree');

  handed.length = 0;
  expect(await host.enterAgain(sheet, ['FunctionTable', 'UnitWhite2' as CellName])).toEqual({ formulas: 3 });
  await settled();
  expect(handed.sort()).toEqual([10, 200, 200]);
  expect(await shown('FunctionTable', 205, 1)).toBeCloseTo((729 / 9) * 25, 8);
});
