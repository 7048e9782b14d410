import { expect, it } from 'vitest';
import { calculate } from '../../src/audit/formula/calculate';
import { FUNCTIONS } from '../../src/functions/table';
import { wrap } from '../../src/functions/wrap';
import { batchPlan } from '../../src/sheets/batch';
import type { CellName } from '../../src/sheets/names/all';
import type { Plan, PlanCell } from '../../src/sheets/plan';
import { bookOf } from '../../src/sheets/realize';
import { createPaneHost } from '../excel/host';
import { argumentsOf, batchSetup, rangeOf, typed } from '../sheets/batchcases';

/*
 * A batch of 500 and of 5000 units, nine readings each, in the embedded engine without a screen: what building it
 * sends and takes, and what one changed reading costs. Readings are invented.
 */
const ms = (time: number) => `${time.toFixed(0)} ms`;
const kB = (bytes: number) => `${(bytes / 1000).toFixed(1)} kB`;
const MB = (bytes: number) => `${(bytes / 1e6).toFixed(0)} MB`;
/** Minutes that a busy machine may need, in ms. */
const SLOW = 1_800_000;
/** Excel on the web takes no longer message (resource limits of Office Add-ins). */
const MESSAGE_MAX = 5_000_000;
const SIZES = [500, 5000];

async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

/** The highest memory of the process while something runs. */
async function peak(work: () => Promise<unknown>): Promise<number> {
  let most = process.memoryUsage().rss;
  const timer = setInterval(() => {
    most = Math.max(most, process.memoryUsage().rss);
  }, 20);
  await work();
  clearInterval(timer);
  return Math.max(most, process.memoryUsage().rss);
}

/** The plan without some of its formulas. */
function without(plan: Plan, isOut: (cell: PlanCell) => boolean): Plan {
  const cells = Object.fromEntries(
    Object.entries(plan.cells).map(([at, cell]) => {
      if (cell.formula === undefined || !isOut(cell)) return [at, cell];
      const { formula: _, ...rest } = cell;
      return [at, rest];
    }),
  );
  return { ...plan, cells };
}

async function built(plan: Plan) {
  const { host, test } = await createPaneHost();
  const bridge = test.workbench.bridge as { sendMessageToHost(text: string): void };
  const traffic = { trips: 0, bytes: 0, longest: 0 };
  const send = bridge.sendMessageToHost.bind(bridge);
  bridge.sendMessageToHost = (text) => {
    const own = Buffer.byteLength(text, 'utf8');
    traffic.trips++;
    traffic.bytes += own;
    traffic.longest = Math.max(traffic.longest, own);
    send(text);
  };
  const settled = () => test.engine.calculation.settled();
  let sheet = '';
  let sent = 0;
  let calculated = 0;
  const memory = await peak(async () => {
    sent = await timed(async () => {
      sheet = (await host.build(plan)).sheet;
    });
    calculated = await timed(settled);
  });
  const write = (row: number, values: number[][]) =>
    timed(async () => {
      await host.writeBlocks(sheet, [{ name: 'Readings', row, column: 0, values }]);
      await settled();
    });
  return {
    traffic: { ...traffic },
    sent,
    calculated,
    memory,
    fill: (lines: number) =>
      write(
        0,
        Array.from({ length: lines }, (_, i) => Array<number>(9).fill(80 + (i % 20))),
      ),
    /** Types another first reading into a row in the middle; answers how long everything takes. */
    edit: (lines: number, value: number) => write(lines >> 1, [[value, ...Array<number>(8).fill(80)]]),
    all: () =>
      timed(async () => {
        test.engine.recalculate();
        await settled();
      }),
    cell: async (name: CellName, row: number) => (await host.readCells(sheet, [{ name, row, column: 0 }]))[0],
  };
}

const planOf = (lines: number) => batchPlan(batchSetup({ lines, ambient: 'none', stated: {} }), `b${lines}`);
/** Of several turns the quickest: what the machine does beside does not count. */
async function best(turns: number, work: (turn: number) => Promise<number>): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < turns; turn++) least = Math.min(least, await work(turn));
  return least;
}

it('building and recalculating a batch of 500 and of 5000 units', { timeout: SLOW }, async () => {
  const found: Record<string, number>[] = [];
  for (const lines of SIZES) {
    let plan: Plan | undefined;
    const planned = await timed(async () => {
      plan = planOf(lines);
    });
    const batch = await built(plan!);
    const { trips, bytes, longest } = batch.traffic;
    console.log(
      `${lines} units: plan ${ms(planned)}; built in ${trips} round trips, ${kB(bytes)}, longest message ${kB(longest)}, ${ms(batch.sent)}, first calculated after further ${ms(batch.calculated)}, at most ${MB(batch.memory)}`,
    );
    expect(longest).toBeLessThan(MESSAGE_MAX);
    const filled = await batch.fill(lines);
    const edit = await best(2, (turn) => batch.edit(lines, 82 + turn));
    const all = await batch.all();
    // (83 + 8 × 80) ÷ 9 × 10 × 2.5 m², by arithmetic: the last edit was of 83.
    expect(await batch.cell('UnitWhite', lines >> 1)).toBeCloseTo((723 / 9) * 25, 8);
    expect(await batch.cell('Agreement', lines >> 1)).toBe('agree');
    console.log(
      `${lines} units: all readings written and calculated ${ms(filled)}; one changed reading ${ms(edit)}, everything again ${ms(all)}: ${(all / edit).toFixed(1)} times as long`,
    );
    found.push({ planned, sent: batch.sent, calculated: batch.calculated, filled, edit, all });
  }
  const [small, large] = found;
  const growth = (key: string) => (large![key]! / small![key]!).toFixed(1);
  console.log(
    `from 500 to 5000 units, ten times as many: plan × ${growth('planned')}, build × ${growth('sent')}, first calculation × ${growth('calculated')}, all readings × ${growth('filled')}, one reading × ${growth('edit')}, everything × ${growth('all')}`,
  );
});

it('the one function for the table against the plain formulas by row, in the same engine', {
  timeout: SLOW,
}, async () => {
  const lines = 500;
  const plan = planOf(lines);
  const cells = new Set(
    ['UnitState', 'UnitWhite', 'UnitWhiteU', 'UnitUniformity', 'UnitDecision', 'Agreement'].map((name) =>
      rangeOf(plan, name).replace(/\d+.*$/, ''),
    ),
  );
  const isRow = (at: string) => cells.has(at.replace(/\d+$/, '')) && Number(at.replace(/\D/g, '')) > 5;
  const plain = without(
    plan,
    ({ formula }) => formula!.includes('LIGHT.BATCH(') || formula!.includes('ISERROR($'),
  );
  const rows = new Map(
    Object.entries(plan.cells)
      .filter(([at]) => isRow(at))
      .map(([, cell]) => [cell, true]),
  );
  const custom = without(plan, (cell) => rows.has(cell));
  for (const [what, one] of [
    ['plain formulas', plain],
    ['the function', custom],
  ] as const) {
    const batch = await built(one);
    await batch.fill(lines);
    const edit = await best(3, (turn) => batch.edit(lines, 81 + turn));
    const all = await best(2, () => batch.all());
    console.log(
      `${lines} units by ${what} alone: one changed reading ${ms(edit)}, everything again ${ms(all)}`,
    );
  }
});

/** Calls of the function for one block; no call of ours may hold the page for so long, in ms. */
const CALLS = 300;
const HELD_MAX = 50;

it('one call of the function for a block of the table, as a changed reading asks for it', async () => {
  const lines = 200;
  for (const readings of ['nine points white', 'nine points in each colour'] as const) {
    const empty = batchPlan(batchSetup({ lines, ambient: 'none', stated: {}, readings }), 'b200');
    const columns = readings === 'nine points white' ? 9 : 36;
    const plan = typed(empty, {
      Readings: Array.from({ length: lines }, (_, i) =>
        Array.from({ length: columns }, (_, j) => 80 + ((i + j) % 20)),
      ),
    });
    const sheet = calculate(bookOf([plan]).sheets[0]!);
    const raw = argumentsOf({ ...bookOf([plan]), sheets: [sheet] }, plan);
    const call = wrap(FUNCTIONS.find(({ id }) => id === 'BATCH')!, () => Error as never);
    const times: number[] = [];
    let result: unknown;
    for (let turn = 0; turn < CALLS; turn++) {
      // Another reading each time, so that nothing can be kept.
      (raw[1]![turn % lines] as number[])[0] = 81 + turn / 100;
      // Time of the processor: what the machine does beside does not count.
      const before = process.cpuUsage();
      result = call(...raw);
      const { user, system } = process.cpuUsage(before);
      times.push((user + system) / 1000);
    }
    expect(result).toHaveLength(lines);
    const [first] = times;
    times.sort((a, b) => a - b);
    const [median, worst] = [times[CALLS >> 1]!, times.at(-1)!];
    console.log(
      `LIGHT.BATCH for ${lines} units, ${readings}: median ${median.toFixed(1)} ms of processor time, the first ${first!.toFixed(1)} ms, worst of ${CALLS} ${worst.toFixed(1)} ms (aim: below ${HELD_MAX} ms)`,
    );
  }
});
