// @vitest-environment node
import { expect, it, vi } from 'vitest';
import { testField } from '../../../src/fields/field';
import type { CellName } from '../../../src/sheets/names/all';
import { runPlan } from '../../../src/sheets/run';
import { createPaneHost } from '../../excel/host';
import { createProjector } from '../../fields/projector';
import { paint } from '../../fields/raster';
import { SETUP } from '../scenes';
import { guided } from './guided';

/*
 * A simulated projector read through guided capture into the embedded spreadsheet, whose own formulas give the
 * results. What was put in is known: at full drive 150, 600 and 120 lx in red, green and blue, 430 lx added to
 * white, full fields of one colour boosted by a quarter. Alike all over the image of 1.92 × 1.2 m = 2.304 m².
 */
const projector = createProjector({ red: 150, green: 600, blue: 120, added: 430, boost: 1.25 });
const SIZE = { width: 480, height: 300 };
const AREA = 1.92 * 1.2;

it.each([
  // (150 + 600 + 120) lx × 2.304 m²; 870 ÷ 1300
  ['tiled patterns', 870 * AREA, 870 / 1300],
  // 1.25 times as much, which no picture with more than one colour has
  ['full fields', 1.25 * 870 * AREA, (1.25 * 870) / 1300],
] as const)('read by %s', { timeout: 180_000 }, async (colour, colourOutput, ratio) => {
  const { host } = await createPaneHost();
  const { sheet } = await host.build(
    runPlan({ ...SETUP, colour, black: false, ambient: 'none' }, 'tiled001'),
  );
  const capture = await guided(host, { isBegun: false });
  await vi.waitFor(() => expect(capture.store.stage.value).toBe('before'), { timeout: 20_000 });
  capture.store.begin('Bright');
  for (let step = capture.store.current.value; step; step = capture.store.current.value) {
    const picture = paint(SIZE, testField(step.field).marks(SIZE));
    capture.read(projector.lux(picture, step.u, step.v).toPrecision(12));
    expect(capture.question()).toBe('');
  }
  await vi.waitFor(() => expect(capture.store.waiting.value).toBe(0), { timeout: 60_000 });
  const value = async (name: CellName) => (await host.read(sheet)).values[name]!.values[0]![0];
  await vi.waitFor(async () => expect(await value('WhiteLightOutput')).toBeCloseTo(1300 * AREA, 6), {
    timeout: 20_000,
  });
  expect(await value('ColourLightOutput')).toBeCloseTo(colourOutput, 6);
  expect(await value('ColourToWhite')).toBeCloseTo(ratio, 9);
  capture.stop();
});
