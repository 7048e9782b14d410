import { beforeEach, describe, expect, it } from 'vitest';
import type { Host } from '../../src/excel/host';
import type { CellName } from '../../src/sheets/names/all';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

let host: Host;
let test: TestHost;
beforeEach(async () => {
  ({ host, test } = await createPaneHost());
});

/** 1.6 × 0.9 m and the nine readings of the check values below. */
const SETUP = {
  ...defaultRunSetup(),
  projector: 'Reading room 3 (invented)',
  image: { shape: 'rectangle', known: 'width', length: 1.6, unit: 'm', across: 16, down: 9 },
} as const;
const NINE = [
  [812, 905, 820],
  [890, 1000, 896],
  [805, 902, 815],
];

async function resultOf(sheet: string, name: CellName) {
  await test.engine.calculation.settled();
  return (await host.read(sheet)).values[name]?.values[0]?.[0];
}

describe('building a run sheet through the real client library', () => {
  it('computes the light output of readings typed into it', async () => {
    const { sheet } = await host.build(runPlan(SETUP, 'a1'));
    expect(sheet).toBe('Run Reading room 3 (invented)');
    await host.write(sheet, 'WhiteReadings', NINE);
    await host.write(sheet, 'AmbientReadings', [[0]]);
    // Worked by hand: 7845 ÷ 9 lx × 1.44 m² = 1255.2 lm; min ÷ max = 805 ÷ 1000.
    expect(await resultOf(sheet, 'ImageArea')).toBeCloseTo(1.44, 10);
    expect(await resultOf(sheet, 'WhiteLightOutput')).toBeCloseTo(1255.2, 8);
    expect(await resultOf(sheet, 'WhiteLightOutputPlain')).toBeCloseTo(1255.2, 8);
    expect(await resultOf(sheet, 'UniformityMinMax')).toBeCloseTo(0.805, 10);
  });
});
