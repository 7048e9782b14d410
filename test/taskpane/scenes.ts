import { runModel } from '../../src/metrology/run/model';
import { cellsOf } from '../../src/sheets/address';
import type { CellValue } from '../../src/sheets/book';
import { comparisonPlan, DEFAULT_COMPARISON } from '../../src/sheets/comparison';
import { runPlan } from '../../src/sheets/run';
import { BUDGET_IDS, BUDGET_RESULT } from '../../src/sheets/run/budgetid';
import { runInputOf } from '../../src/sheets/run/input';
import { defaultRunSetup, type RunSetup } from '../../src/sheets/runsetup';
import { comparedRuns } from '../../taskpane/compare/compared';
import { smallest } from '../audit/sheets';
import { budget } from '../metrology/budget';
import { FakeHost } from './fakehost';

/*
 * States of a workbook for tests and for the gallery. Readings and names are invented; the figures in the
 * results are computed by hand from them where a test says so, and otherwise only fill the screen.
 */

export const WHITE = [
  [1092, 1148, 1080],
  [1164, 1251, 1159],
  [1071, 1140, 1066],
];
const RED = WHITE.map((row) => row.map((n) => Math.round(n * 0.075)));
const GREEN = WHITE.map((row) => row.map((n) => Math.round(n * 0.248)));
const BLUE = WHITE.map((row) => row.map((n) => Math.round(n * 0.026)));

/** An invented projector in an invented library. */
export const SETUP: RunSetup = {
  ...defaultRunSetup(),
  projector: 'Reading room 3, unit B',
  mode: 'Bright',
  image: { shape: 'rectangle', known: 'width', length: 1.92, unit: 'm', across: 16, down: 10 },
};

export async function runHost(setup: Partial<RunSetup> = {}, id = 'abc12345'): Promise<FakeHost> {
  const host = new FakeHost();
  await host.build(runPlan({ ...SETUP, ...setup }, id));
  return host;
}

/** A result cell as the program would show it. */
export function putResult(host: FakeHost, name: string, value: CellValue, text?: string): void {
  host.put(host.active, name, [[value]], text);
}

/** Thirty-one of thirty-six readings, one of them over range. */
export async function halfway(): Promise<FakeHost> {
  const host = await runHost();
  host.put(host.active, 'WhiteReadings', WHITE);
  host.put(host.active, 'RedReadings', RED);
  host.put(host.active, 'GreenReadings', GREEN);
  host.put(host.active, 'BlueReadings', [BLUE[0]!, [BLUE[1]![0]!, 'over', null], [null, null, null]]);
  host.put(host.active, 'AmbientReadings', [[2]]);
  putResult(host, 'WhiteLightOutput', 2604.2, '2,604.2');
  putResult(host, 'ColourLightOutput', '4 of 9');
  putResult(host, 'ColourToWhite', 'waiting');
  putResult(host, 'UniformityMinMax', 0.852, '85.2 %');
  putResult(host, 'Agreement', 'agree');
  return host;
}

/** A whole run whose white is far above its colours. */
export async function complete(setup: Partial<RunSetup> = {}): Promise<FakeHost> {
  const host = await runHost(setup);
  host.put(host.active, 'WhiteReadings', WHITE);
  host.put(host.active, 'RedReadings', RED);
  host.put(host.active, 'GreenReadings', GREEN);
  host.put(host.active, 'BlueReadings', BLUE);
  host.put(
    host.active,
    'BlackReadings',
    WHITE.map((row) => row.map(() => 2)),
  );
  host.put(host.active, 'AmbientReadings', [[1]]);
  host.put(host.active, 'LastReading', [[1247]]);
  putResult(host, 'WhiteLightOutput', 2604.2, '2,604.2');
  putResult(host, 'ColourLightOutput', 909.4, '909.4');
  putResult(host, 'ColourToWhite', 0.349, '0.349');
  putResult(host, 'RedLightOutput', 194.9, '194.9');
  putResult(host, 'GreenLightOutput', 645.7, '645.7');
  putResult(host, 'BlueLightOutput', 67.8, '67.8');
  putResult(host, 'WhiteIlluminance', 1130.23, '1,130.23');
  putResult(host, 'ScreenLuminance', 359.76, '359.76');
  putResult(host, 'UniformityMinMax', 0.852, '85.2 %');
  putResult(host, 'UniformityMinMean', 0.943, '94.3 %');
  putResult(host, 'SequentialContrast', 1130.2, '1,130.2');
  putResult(host, 'Drift', -0.003, '-0.3 %');
  host.put(
    host.active,
    'Agreement',
    Array.from({ length: 18 }, () => ['agree']),
  );
  return host;
}

/** The complete run with its uncertainties as the model has them; the shares of each budget are invented. */
export async function sure(setup: Partial<RunSetup> = {}): Promise<FakeHost> {
  const host = await complete({
    rated: { white: 3000, colour: 1500, minimumFraction: 0.8 },
    uncertainty: { ...SETUP.uncertainty, ofReading: 0.03, width: 4 },
    ...setup,
  });
  const derived = { ImageWidth: 1.92, ImageHeight: 1.2, ImageArea: 2.304 };
  for (const [name, value] of Object.entries(derived)) putResult(host, name, value);
  for (const { id, value, u, dof, k, expanded } of await byModel(host)) {
    putResult(host, BUDGET_RESULT[id].name, value);
    putResult(host, `${id}U`, u);
    putResult(host, `${id}Dof`, dof);
    putResult(host, `${id}K`, k);
    putResult(host, `${id}Expanded`, expanded);
  }
  putShares(host, 'White', [0.4, 0, 0.02, 0.01, 0.02, 0, 0.06, 0.205, 0.135, 0.05, 0.1, 0, 0, 0, 0]);
  putShares(host, 'Luminance', [0.1, 0, 0.05, 0.01, 0.02, 0, 0.02, 0.02, 0.03, 0, 0, 0, 0.75]);
  putShares(host, 'Uniformity', [0, 0, 0.03, 0.07, 0.9, 0, 0, 0]);
  putShares(
    host,
    'Colour',
    [0.28, 0, 0, 0, 0.02, 0.01, 0.01, 0.01, 0.01, 0, 0, 0.3, 0.05, 0.12, 0.06, 0.04, 0.03, 0.06, 0, 0, 0],
  );
  putResult(host, 'WhiteLimit', 2400);
  putResult(host, 'WhiteProbability', 0.9979);
  putResult(host, 'WhiteVerdict', 'pass');
  putResult(host, 'ColourLimit', 1200);
  putResult(host, 'ColourProbability', 0);
  putResult(host, 'ColourVerdict', 'fail');
  const cells = cellsOf((await host.read(host.active)).values.CauseStatus!.address);
  host.put(
    host.active,
    'CauseStatus',
    cells.map((_, i) => [
      i === 1 ? 'assumed: \u00b1 10 digits, as hand-held meters often state' : 'as entered',
    ]),
  );
  return host;
}

/** What the sheet's own formulas would come to: the tests of the sheets hold those against the model. */
async function byModel(host: FakeHost) {
  const input = runInputOf((await host.read(host.active)).values);
  if (!input.ok) throw new Error(input.problems.map(({ message }) => message).join(' '));
  const model = runModel(input.value.input);
  if (!model.ok) throw new Error('No model');
  return BUDGET_IDS.filter((id) =>
    model.value.outputs.some((output) => output.id === BUDGET_RESULT[id].output),
  ).map((id) => {
    const result = budget(model.value, BUDGET_RESULT[id].output);
    if (!result.ok) throw new Error(`No budget for ${id}`);
    return { ...result.value, id };
  });
}

function putShares(host: FakeHost, id: string, shares: readonly number[]): void {
  host.put(
    host.active,
    `${id}Shares`,
    shares.map((share) => [share]),
  );
}

/** Three invented runs and their comparison; figures only fill the screen. */
export async function compared(): Promise<FakeHost> {
  const host = new FakeHost();
  const runs: readonly (readonly [string, RunSetup['colour']])[] = [
    ['Bright', 'full fields'],
    ['Cinema', 'full fields'],
    ['Eco', 'none'],
  ];
  const meter = { ...SETUP.meter, name: 'Meter 7 (invented)' };
  for (const [i, [mode, colour]] of runs.entries())
    await host.build(runPlan({ ...SETUP, mode, colour, meter }, `run${i}`));
  const sheets = [...host.sheets.keys()];
  const readings = await Promise.all(sheets.map((sheet) => host.read(sheet)));
  const plan = comparisonPlan(
    comparedRuns(readings, 'by what the sheets say', 'by what the sheets say'),
    DEFAULT_COMPARISON,
    'cmp00001',
  );
  if (!plan.ok) throw new Error('No comparison');
  await host.build(plan.value);
  const put = (name: string, values: readonly CellValue[], isColumn = false) =>
    host.put(host.active, name, isColumn ? values.map((value) => [value]) : [values]);
  put('RunNames', ['Unit B, Bright', 'Unit B, Cinema', 'Unit B, Eco']);
  put('WhiteValues', [2604.2, 1420.6, 2510.3]);
  put('WhiteU', [123, 68, 119]);
  put('ColourValues', [909.4, 1386.1, 'not measured']);
  put('ColourU', [121, 160, 'not measured']);
  put('RatioValues', [0.349, 0.976, 'not measured']);
  put('RatioU', [0.041, 0.11, 'not measured']);
  put('UniformityValues', [0.852, 0.849, 0.855]);
  put('UniformityU', [0.021, 0.02, 0.022]);
  put('Prices', [1200, 1200, 990]);
  put(
    'PairNames',
    [
      'Unit B, Bright  minus  Unit B, Cinema',
      'Unit B, Bright  minus  Unit B, Eco',
      'Unit B, Cinema  minus  Unit B, Eco',
    ],
    true,
  );
  put('WhitePairDifferences', [1183.6, 93.9, -1089.7], true);
  put('WhitePairU', [88, 96, 84], true);
  put('WhitePairVerdicts', ['different', 'not distinguishable', 'different'], true);
  put('ColourPairDifferences', [-476.7], true);
  put('ColourPairU', [190], true);
  put('ColourPairVerdicts', ['different'], true);
  put('UniformityPairDifferences', [0.003, -0.003, -0.006], true);
  put('UniformityPairU', [0.028, 0.029, 0.03], true);
  put('UniformityPairVerdicts', ['not distinguishable', 'not distinguishable', 'not distinguishable'], true);
  for (const id of ['White', 'Colour', 'Ratio', 'Luminance', 'Uniformity']) put(`${id}Agreement`, ['agree']);
  return host;
}

/** A small run, calculated, with the cursor on its result. */
export function traceable(): FakeHost {
  const host = new FakeHost();
  const [sheet] = smallest().sheets;
  host.sheets.set(sheet!.name, { book: sheet!, changed: new Map() });
  host.active = sheet!.name;
  const result = sheet!.names.find(({ name }) => name === 'WhiteLightOutput')!.refersTo;
  host.cursor = result.slice(result.lastIndexOf('!') + 1).replace(/\$/g, '');
  return host;
}
