import { expect, it } from 'vitest';
import { filled, randomRun } from '../sheets/randomrun';
import { createPaneHost } from './host';

it('every result of a run agrees with its plain formula in the embedded engine', async () => {
  for (const seed of [1, 2, 5]) {
    // A workbook each: the engine looks at every sheet that is there whenever one changes.
    const { host, test } = await createPaneHost();
    const run = randomRun(seed);
    const { sheet } = await host.build(filled(run));
    await test.engine.calculation.settled();
    const { values } = await host.read(sheet);
    const wrong = Object.entries(values)
      .filter(([name]) => /Agreement$/.test(name))
      .flatMap(([name, { values: cells }]) =>
        cells
          .flat()
          .map((cell, i) => `${name} ${i}: ${JSON.stringify(cell)}`)
          .filter((text) => !/"agree"|no rated/.test(text)),
      );
    expect(wrong).toEqual([]);
  }
}, 180_000);
