import { expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { expectedOf } from '../../src/audit/expected';
import { viewOf } from '../../src/audit/view';
import { cellsOf } from '../../src/sheets/address';
import { runPlan } from '../../src/sheets/run';
import { rangeNamed } from '../sheets/named';
import { filled, randomRun } from '../sheets/randomrun';
import { createPaneHost } from './host';

it('what the host reads of a sheet passes the audit, and a changed cell does not', async () => {
  const { host, test } = await createPaneHost();
  const run = randomRun(1);
  const plan = runPlan(run.setup, 'b1');
  const { sheet } = await host.build(filled({ ...run, plan }));
  await test.engine.calculation.settled();
  const ranges = { [sheet]: plan.validations.map(({ range }) => range) };
  const book = await host.book({ sheets: [sheet], validations: ranges });
  const view = viewOf(book.sheets[0]!);
  // Typed names are looked up from the sheet itself, so the plan can be told from it.
  expect(expectedOf(view)).toMatchObject({ plan: { kind: 'run' } });
  const findings = (await check(book)).findings.filter(({ severity }) => severity !== 'note');
  expect(findings.map(({ at, message }) => `${at}: ${message}`)).toEqual([]);

  await test.run(async (context) => {
    const worksheet = context.workbook.worksheets.getItem(sheet);
    worksheet.protection.unprotect();
    worksheet.getRange(rangeNamed(plan, 'WhiteLightOutputPlain')).values = [[2300]];
    await context.sync();
  });
  const changed = await check(await host.book({ sheets: [sheet], validations: ranges }));
  const at = rangeNamed(plan, 'WhiteLightOutputPlain');
  expect(
    changed.findings.some((finding) => finding.at !== undefined && cellsOf(finding.at).includes(at)),
  ).toBe(true);
});
