import { expect, it } from 'vitest';
import { acceptancePlan } from '../../src/sheets/acceptance';
import { lineOfRun, linkedCells } from '../../src/sheets/acceptance/links';
import { drawLot } from '../../src/sheets/acceptance/setup';
import type { CellValue } from '../../src/sheets/book';
import type { Plan } from '../../src/sheets/plan';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { createPaneHost } from '../excel/host';

const SERIALS = ['BIB-1', 'BIB-2', 'BIB-3', 'BIB-4'];

/** An invented lot of four, all of them drawn. */
function lotPlan(): Plan {
  const lot = drawLot({
    lot: 'Four units (invented)',
    serials: SERIALS,
    aql: 2.5,
    seed: '4 2 6 1',
    drawnBy: 'A. Person (invented)',
    drawnOn: '2026-03-02',
    leastWhite: 1000,
    counting: 'value',
  });
  if (!lot.ok) throw new Error('No lot');
  return acceptancePlan(lot.value, 'lot1');
}

const NINE = (lux: number) => Array.from({ length: 3 }, () => [lux, lux, lux]);

it('a linked line follows readings, renaming, another serial number and deletion', async () => {
  const { host, test } = await createPaneHost();
  const settled = () => test.engine.calculation.settled();
  const run = await host.build(
    runPlan(
      {
        ...defaultRunSetup(),
        projector: 'Unit 2 (invented)',
        serial: 'BIB-2',
        mode: 'Standard',
        colour: 'none',
        ambient: 'none',
        black: false,
        // 1.6 m × 1 m: every lux is 1.6 lm.
        image: { shape: 'rectangle', known: 'width', length: 1.6, unit: 'm', across: 16, down: 10 },
      },
      'run1',
    ),
  );
  const lot = await host.build(lotPlan());
  const addresses = async (sheet: string) =>
    Object.fromEntries(
      Object.entries((await host.read(sheet)).values).map(([name, { address }]) => [name, address]),
    );
  const linked = { sheet: run.sheet, addresses: await addresses(run.sheet) };
  await host.restore(lot.sheet, {
    cells: linkedCells(await addresses(lot.sheet), new Map([[1, (at) => lineOfRun(linked, at)]])),
  });
  const line = async (): Promise<CellValue[]> => {
    await settled();
    const { values } = await host.read(lot.sheet);
    return (['UnitWhite', 'UnitSource', 'UnitDecision', 'Nonconforming'] as const).map(
      (name) => values[name]!.values[name === 'Nonconforming' ? 0 : 1]![0] || 0,
    );
  };
  expect(await line()).toEqual([
    0,
    'run sheet without a result: Unit 2 (invented), Standard',
    'to be measured',
    0,
  ]);
  await host.write(run.sheet, 'WhiteReadings', NINE(600));
  // 600 lx × 1.6 m² = 960 lm, below the least of 1000 lm by 4 %; the assumed uncertainty is larger than that.
  expect(await line()).toEqual([960, 'run sheet: Unit 2 (invented), Standard', 'does not conform', 1]);
  expect((await host.read(lot.sheet)).values.FailureReasons!.values[0]).toEqual(['white 4.0 % short']);
  await test.run(async (context) => {
    context.workbook.worksheets.getItem(run.sheet).name = "Anna's run";
    await context.sync();
  });
  await host.write("Anna's run", 'WhiteReadings', NINE(700));
  expect(await line()).toEqual([1120, 'run sheet: Unit 2 (invented), Standard', 'conforms', 0]);
  await host.write("Anna's run", 'SerialNumber', [['BIB-22']]);
  expect(await line()).toEqual([0, 'the linked run sheet bears another serial number', 'to be measured', 0]);
  await host.write("Anna's run", 'SerialNumber', [[' BIB-2 ']]);
  // A person may type over a linked figure; the line then says so.
  await host.write(lot.sheet, 'UnitWhite', [[null], [1234], [null], [null]]);
  expect(await line()).toEqual([1234, 'typed here; its run sheet says otherwise', 'conforms', 0]);
  await test.run(async (context) => {
    context.workbook.worksheets.getItem("Anna's run").delete();
    await context.sync();
  });
  expect((await line())[1]).toBe('the linked run sheet is gone');
});
