import { beforeAll, describe, expect, it } from 'vitest';
import { viewOf } from '../../src/audit/view';
import type { Host } from '../../src/excel/host';
import type { BookSheet } from '../../src/sheets/book';
import { OVERVIEW_VERSION, overviewPlan } from '../../src/sheets/overview';
import type { Plan } from '../../src/sheets/plan';
import { PROGRAM } from '../../src/sheets/program';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { rangeNamed } from '../sheets/named';
import { createPaneHost } from './host';

let host: Host;
let run: string;
/** Where the run has them. */
let projector: string;
let output: string;
beforeAll(async () => {
  ({ host } = await createPaneHost());
  const setup = { ...defaultRunSetup(), projector: '=1+1', colour: 'none', black: false } as const;
  const built = runPlan(setup, 'ru1');
  projector = rangeNamed(built, 'Projector');
  output = rangeNamed(built, 'WhiteLightOutputPlain');
  run = (await host.build(built)).sheet;
});

/** The overview of the one run, listed so many times: another length each time. */
const plan = (times: number, id = 'ov1'): Plan =>
  overviewPlan(
    {
      sheets: Array.from({ length: times }, (_, i) => ({
        sheet: run,
        kind: 'run',
        id: `ru${i}`,
        isSealed: false,
        cells: { Projector: { address: projector }, WhiteLightOutputPlain: { address: output } },
      })),
      gone: [],
    },
    id,
  );

describe('several sheets in few round trips', () => {
  it('reads some names of every sheet of a kind, with values and where they stand', async () => {
    await host.write(run, 'WhiteReadings', [
      [812, 805, null],
      [1, 2, 3],
      [4, 5, 6],
    ]);
    const [found, ...others] = await host.readSome({
      run: ['WhiteReadings', 'Projector', 'Nowhere' as 'Place'],
      need: ['Rooms'],
    });
    expect(others).toEqual([]);
    expect(found).toMatchObject({ sheet: run, kind: 'run', id: 'ru1' });
    expect(found!.isSealed).toBeUndefined();
    expect(Object.keys(found!.values).sort()).toEqual(['Projector', 'WhiteReadings']);
    expect(found!.values.Projector).toMatchObject({ address: projector, values: [['=1+1']] });
    expect(found!.values.WhiteReadings!.values[0]).toEqual([812, 805, null]);
    const whole = await host.read(run);
    expect(found!.values.WhiteReadings).toEqual(whole.values.WhiteReadings);
  });
});

describe('writing a sheet anew', () => {
  it('leaves what the new plan says and nothing else, whatever is longer', async () => {
    const { sheet } = await host.build(plan(4));
    for (const times of [2, 5]) {
      await host.rewrite(sheet, plan(times));
      const { values, kind, id } = await host.read(sheet);
      expect([kind, id]).toEqual(['overview', 'ov1']);
      expect(values.Marks!.values.flat()).toEqual(Array.from({ length: times }, (_, i) => `ru${i}`));
      expect(values.Abouts!.values.flat()[0]).toBe('=1+1');
      const [book] = (await host.book({ sheets: [sheet] })).sheets;
      const planned = plan(times).cells;
      const held = Object.entries(book!.cells).filter(
        ([, { value, formula }]) => formula !== undefined || (value !== null && value !== ''),
      );
      const wanted = Object.entries(planned).filter(
        ([, cell]) => cell.formula !== undefined || cell.value !== undefined,
      );
      expect(held.map(([at]) => at).sort()).toEqual(wanted.map(([at]) => at).sort());
      expect(book!.isProtected).toBe(true);
    }
  });

  it('says which program built a sheet, and that one of before has today’s layout by then', async () => {
    const { sheet } = await host.build(plan(1, 'ov3'));
    const mark = async () => {
      const [book] = (await host.book({ sheets: [sheet] })).sheets;
      const { identity, builtBy } = viewOf(book!);
      return [identity!.version, builtBy];
    };
    expect(await mark()).toEqual([OVERVIEW_VERSION, PROGRAM]);
    const [{ names }] = (await host.book({ sheets: [sheet] })).sheets as [BookSheet];
    const { comment: _, ...own } = names.find(({ name }) => name === 'LightSheet')!;
    await host.editNames([{ sheet, remove: [], set: [{ ...own, refersTo: '="overview;1;ov3"' }] }]);
    expect(await mark()).toEqual([1, undefined]);
    await host.rewrite(sheet, plan(2, 'ov3'));
    expect(await mark()).toEqual([OVERVIEW_VERSION, PROGRAM]);
  });

  it('refuses another sheet, and one that is sealed, and changes nothing', async () => {
    const { sheet } = await host.build(plan(1, 'ov2'));
    await expect(host.rewrite(sheet, plan(2, 'ov9'))).rejects.toMatchObject({ trouble: 'refused' });
    await expect(host.rewrite(run, plan(2))).rejects.toMatchObject({ trouble: 'refused' });
    await host.editNames([
      { sheet, remove: [], set: [{ name: 'LightSeal', refersTo: '="x"', hidden: true }] },
    ]);
    expect((await host.survey()).sheets.find((one) => one.sheet === sheet)!.isSealed).toBe(true);
    await expect(host.rewrite(sheet, plan(2, 'ov2'))).rejects.toMatchObject({ trouble: 'refused' });
    const { values } = await host.read(sheet);
    expect(values.Marks!.values).toEqual([['ru0']]);
  });
});
