import type { Frame, Page } from 'playwright-core';
import { type, typeRow } from './browser';
import { placeOf } from './cells';

/** Invented readings in lx as they lie on the screen, range factor 1; image 1.6 m × 0.9 m; ambient once. */
export const AMBIENT = 4;
export const FIELDS = {
  White: [
    [812, 905, 820],
    [890, 1000, 896],
    [805, 902, 815],
  ],
  Red: [
    [160, 180, 161],
    [178, 200, 179],
    [159, 180, 163],
  ],
  Green: [
    [520, 580, 525],
    [570, 640, 575],
    [515, 580, 520],
  ],
  Blue: [
    [60, 66, 61],
    [65, 72, 65],
    [59, 66, 60],
  ],
} as const;

/**
 * By hand, with the definitions of ISO/IEC 21118 as retold (mean of nine net illuminances × area), area 1.6 × 0.9 =
 * 1.44 m², so 0.16 m² for each of the nine:
 * sums of display: white 7845, red 1560, green 5025, blue 574; less nine times 4 lx: 7809, 1524, 4989, 538.
 */
export const EXPECTED: Readonly<Record<string, number>> = {
  ImageArea: 1.44,
  // 7809 × 0.16
  WhiteLightOutput: 1249.44,
  // 1524 × 0.16
  RedLightOutput: 243.84,
  // 4989 × 0.16
  GreenLightOutput: 798.24,
  // 538 × 0.16
  BlueLightOutput: 86.08,
  // 243.84 + 798.24 + 86.08
  ColourLightOutput: 1128.16,
  // (1524 + 4989 + 538) ÷ 7809 = 7051 ÷ 7809
  ColourToWhite: 7051 / 7809,
  // (805 − 4) ÷ (1000 − 4)
  UniformityMinMax: 801 / 996,
};

/** Types readings of white by keyboard, row by row. */
export async function typeWhite(
  page: Page,
  pane: Frame,
  sheet: string,
  rows: readonly (readonly number[])[],
): Promise<void> {
  const [first] = (await placeOf(pane, sheet, 'WhiteReadings')).split(':');
  const [, column, row] = /^([A-Z]+)(\d+)$/.exec(first!)!;
  for (const [r, texts] of rows.entries())
    await typeRow(page, `${column}${Number(row) + r}`, texts.map(String));
}

export async function typeNamed(
  page: Page,
  pane: Frame,
  sheet: string,
  name: string,
  text: string,
): Promise<void> {
  await type(page, (await placeOf(pane, sheet, name)).split(':')[0]!, text);
}

/** Fills in all readings of a run at once, through the real client library: for what comes after typing. */
export async function fillRun(pane: Frame, sheet: string): Promise<void> {
  await fillFields(pane, sheet, { ...FIELDS, Ambient: [[AMBIENT]] });
}

/** The same for some fields. */
export async function fillFields(
  pane: Frame,
  sheet: string,
  fields: Readonly<Record<string, readonly (readonly (number | '')[])[]>>,
): Promise<void> {
  await pane.evaluate(
    ([title, some]) =>
      Excel.run(async (context) => {
        const { names } = context.workbook.worksheets.getItem(title);
        for (const [name, rows] of Object.entries(some))
          names.getItem(`${name}Readings`).getRange().values = rows.map((row) => [...row]);
        await context.sync();
      }),
    [sheet, fields] as const,
  );
}
