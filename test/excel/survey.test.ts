import { afterEach, beforeEach, expect, it } from 'vitest';
import { SEAL } from '../../src/audit/seal/names';
import type { Host } from '../../src/excel/host';
import { IDENTITY, identityFormula } from '../../src/sheets/plan';
import { counting } from '../bench/counting';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

/** As many sheets of ours as a long job has; marks alone, which is all that a survey asks for. */
const SHEETS = 200;

let host: Host;
let test: TestHost;
let stop: () => void;
/** The next time the host tells of changes, with what it tells. */
let told: () => Promise<readonly string[] | undefined>;

const mark = (id: string) => identityFormula({ kind: 'run', version: 4, id });

const edit = (work: (context: Excel.RequestContext) => void) =>
  test.run(async (context) => {
    work(context);
    await context.sync();
  });
const sheet = (context: Excel.RequestContext, name: string) => context.workbook.worksheets.getItem(name);
const names = async () => (await host.survey()).sheets.map((one) => one.sheet);

beforeEach(async () => {
  ({ host, test } = await createPaneHost());
  await edit((context) => {
    for (let i = 0; i < SHEETS; i++)
      context.workbook.worksheets.add(`Run ${i}`).names.add(IDENTITY, mark(`u${i}`));
    sheet(context, 'Run 3').activate();
  });
  await test.engine.settled();
  let tell: (sheets?: readonly string[]) => void = () => {};
  stop = await host.watch((sheets) => tell(sheets));
  await host.survey();
  told = () =>
    new Promise((resolve) => {
      tell = resolve;
    });
});
afterEach(() => stop());

it('a change elsewhere costs less than 2 kB however many sheets there are, and says where it was', async () => {
  const whole = await host.survey();
  expect(whole.sheets).toHaveLength(SHEETS);
  const traffic = await counting(test).during(async () => {
    const next = told();
    // As a person types, who sends no message.
    expect(await test.workbench.typeInto('Run 7', 'A1', '1')).toMatchObject({ accepted: true });
    expect(await next).toEqual(['Run 7']);
    expect(await host.survey()).toEqual(whole);
  });
  expect(traffic.requests + traffic.answers).toBeLessThan(2000);
});

it('a survey that is kept costs one short round trip', async () => {
  const traffic = await counting(test).during(() => host.survey());
  expect(traffic.trips).toBe(1);
  expect(traffic.requests + traffic.answers).toBeLessThan(2000);
});

it('sees every sheet that is added, deleted or renamed, and marks of the sheet in front', async () => {
  await edit((context) => {
    context.workbook.worksheets.add('New').names.add(IDENTITY, mark('new1'));
  });
  expect((await names()).at(-1)).toBe('New');
  const gone = told();
  await edit((context) => {
    sheet(context, 'Run 5').delete();
    context.workbook.worksheets.add('In its place');
  });
  expect(await gone).toBeUndefined();
  expect(await names()).not.toContain('Run 5');
  await edit((context) => {
    sheet(context, 'Run 3').name = 'Renamed';
  });
  expect(await names()).toContain('Renamed');
  await edit((context) => {
    sheet(context, 'Renamed').names.add(SEAL, '="s"');
    sheet(context, 'Run 8').activate();
  });
  const front = told();
  await edit((context) => sheet(context, 'Renamed').activate());
  await front;
  expect((await host.survey()).sheets.find((one) => one.sheet === 'Renamed')).toMatchObject({
    isSealed: true,
  });
  const other = told();
  await edit((context) => {
    sheet(context, 'Run 9').names.getItem(IDENTITY).delete();
    sheet(context, 'Run 9').activate();
  });
  await other;
  expect(await names()).not.toContain('Run 9');
});
