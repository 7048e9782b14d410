import { it } from 'vitest';
import { runPlan } from '../../src/sheets/run';
import { createPaneHost } from '../excel/host';
import { SETUPS } from '../sheets/setups';
import { SETUP } from '../taskpane/scenes';
import { counting, said } from './counting';

it('building a run sheet', async () => {
  const { host, test } = await createPaneHost();
  const counted = counting(test);
  for (const [what, setup] of Object.entries({ 'as the pane offers it': SETUP, ...SETUPS })) {
    const plan = runPlan(setup, 'wire1');
    const traffic = await counted.during(() => host.build(plan));
    console.log(`run sheet, ${what}, ${plan.names.length} names: ${said(traffic)}`);
    await test.engine.calculation.settled();
  }
});
