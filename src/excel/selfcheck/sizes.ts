import { addressOf } from '../../sheets/address';
import type { CellName } from '../../sheets/names/all';
import { IDENTITY, type Plan, parseIdentity } from '../../sheets/plan';
import type { Probe } from './probe';
import { compared } from './probe';
import type { Scratch } from './scratch';

/* How long work of our sizes takes, and whether it arrives whole. */

const seconds = (since: number) => `${((performance.now() - since) / 1000).toFixed(1)} s`;

/** Builds a plan as the pane does, and has the sheet taken away with the scratch sheet. */
async function build(scratch: Scratch, plan: Plan): Promise<string> {
  const { sheet } = await scratch.host.build(plan);
  await scratch.on(async (_, context) => {
    const found = context.workbook.worksheets.getItem(sheet);
    found.load('id');
    const mark = found.names.getItem(IDENTITY).load('formula');
    await context.sync();
    if (parseIdentity(String(mark.formula))?.id === plan.id) scratch.own(found.id);
  });
  return sheet;
}

const serials = (count: number) => Array.from({ length: count }, (_, i) => ({ serial: `CHECK-${i + 1}` }));

const markOf = () => `selfcheck${Math.floor(Math.random() * 1e9).toString(36)}`;

function cells(count: number, isLong: boolean): Probe {
  return {
    id: `read-${count}`,
    title: `Reading ${count.toLocaleString('en')} cells at once`,
    expects: 'every cell',
    means: 'Large batches cannot be checked or sealed in this program.',
    ...(isLong ? { isLong: true as const } : {}),
    run: (scratch) =>
      scratch.on(async (_, context) => {
        const sheet = context.workbook.worksheets.add();
        sheet.load('id');
        await context.sync();
        scratch.own(sheet.id);
        const range = sheet.getRange(addressOf({ row: 0, column: 0, rows: count / 20, columns: 20 }));
        // One value for all cells (reference of Excel.Range.values).
        (range as unknown as { values: number }).values = 1;
        await context.sync();
        const begun = performance.now();
        range.load('values');
        await context.sync();
        const came = range.values.flat().filter((value) => value === 1).length;
        const found = compared([['cells', came, count]]);
        return { ...found, came: `${found.came} in ${seconds(begun)}` };
      }),
  };
}

function batch(units: number, isLong: boolean): Probe {
  return {
    id: `batch-${units}`,
    title: `A batch of ${units.toLocaleString('en')} units`,
    expects: 'built and calculated',
    means: 'Split batches of this size into several sheets.',
    ...(isLong ? { isLong: true as const } : {}),
    run: async (scratch) => {
      const [{ batchPlan }, { defaultBatchSetup }] = await Promise.all([
        import('../../sheets/batch'),
        import('../../sheets/batch/setup'),
      ]);
      const begun = performance.now();
      const sheet = await build(
        scratch,
        batchPlan({ ...defaultBatchSetup(), units: serials(units), lines: units }, markOf()),
      );
      const built = seconds(begun);
      const { UnitState: state } = await scratch.host.readNamed(sheet, ['UnitState']);
      const rows = state?.values.length ?? 0;
      const found = compared([['rows', rows, units]]);
      return { ...found, came: `${found.came}; built in ${built}, read after ${seconds(begun)}` };
    },
  };
}

export const SIZE_PROBES: readonly Probe[] = [
  {
    id: 'run-sheet',
    title: 'A run sheet',
    expects:
      'built; its readings can be typed and the light output comes: 1255.2 lm, by function and by plain formula',
    means: 'The add-in cannot do its main job here. Please report it with the text of this check.',
    run: async (scratch) => {
      const [{ runPlan }, { defaultRunSetup }] = await Promise.all([
        import('../../sheets/run'),
        import('../../sheets/runsetup'),
      ]);
      const begun = performance.now();
      const image = {
        shape: 'rectangle',
        known: 'width',
        length: 1.6,
        unit: 'm',
        across: 16,
        down: 9,
      } as const;
      const sheet = await build(
        scratch,
        runPlan({ ...defaultRunSetup(), projector: 'Self-check (invented)', image }, markOf()),
      );
      const built = seconds(begun);
      // Worked by hand: 7845 ÷ 9 lx × 1.44 m² = 1255.2 lm.
      await scratch.host.write(sheet, 'WhiteReadings', [
        [812, 905, 820],
        [890, 1000, 896],
        [805, 902, 815],
      ]);
      await scratch.host.write(sheet, 'AmbientReadings', [[0]]);
      const typed = performance.now();
      const results = () => scratch.host.readNamed(sheet, ['WhiteLightOutput', 'WhiteLightOutputPlain']);
      const digits = (value: unknown) => (typeof value === 'number' ? Number(value.toPrecision(10)) : value);
      let found = await results();
      const value = (name: CellName) => digits(found[name]?.values[0]?.[0]);
      const until = Date.now() + RESULT_MS;
      // Before all is calculated words stand there, of what is still missing; a number is an answer, right or wrong.
      const isAnswered = () =>
        (['WhiteLightOutput', 'WhiteLightOutputPlain'] as const).every(
          (name) => typeof value(name) === 'number',
        );
      while (!isAnswered() && Date.now() < until) {
        await new Promise((resolve) => setTimeout(resolve, 100));
        found = await results();
      }
      const answer = compared([
        ['function', value('WhiteLightOutput'), 1255.2],
        ['plain formula', value('WhiteLightOutputPlain'), 1255.2],
      ]);
      return {
        ...answer,
        came: `${answer.came}; built in ${built}, result ${seconds(typed)} after the readings`,
      };
    },
  },
  cells(100_000, false),
  cells(400_000, true),
  batch(200, false),
  batch(1000, true),
  batch(5000, true),
];

const RESULT_MS = 30_000;
