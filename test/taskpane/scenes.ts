import type { CellValue } from '../../src/sheets/book';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup, type RunSetup } from '../../src/sheets/runsetup';
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
export async function complete(): Promise<FakeHost> {
  const host = await runHost();
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
