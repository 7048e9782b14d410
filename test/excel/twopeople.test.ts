import { afterAll, expect, it, vi } from 'vitest';
import { viewOf } from '../../src/audit/view';
import { createExcelHost } from '../../src/excel/excelhost';
import { type Host, HostError } from '../../src/excel/host';
import { findingsPlan } from '../../src/sheets/findings';
import { type LogLine, readLog } from '../../src/sheets/log';
import { parseIdentity } from '../../src/sheets/plan';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { createJournal } from '../../taskpane/capture/journal';
import { createKeeper, type Keeper } from '../../taskpane/capture/keeper';
import { rangeNamed } from '../sheets/named';
import { TestShelf, whiteEntry } from '../taskpane/capture/scene';
import { amount } from '../tools/amount';
import { createPaneHost } from './host';

/*
 * Two people on one workbook, each with a pane of their own: their deeds run at the same time and their messages mix.
 * No reading may be lost, doubled or misplaced, no line of the log either, and every sheet that was built is there
 * once. LONG=1 takes 20 seeds of 200 deeds, the suite a few of one; the table says what came.
 *
 * Races that come from one order only have tests of their own: a build refused beside a colleague's of that name
 * (begun), two tabs that exchange their names before a reading (keeper, people), a reading for a copy (keeper), two
 * who seal at once (halfdone), two who write the first line of the log (log).
 */
const SEEDS = amount(1, 20);
const DEEDS = amount(10, 200);

const PLAN = runPlan(
  { ...defaultRunSetup(), projector: 'Unit (invented)', colour: 'none', black: false },
  'x',
);
const RESULT = rangeNamed(PLAN, 'WhiteLightOutputPlain');
const READINGS = 9;

/** Mulberry32, a small generator in the public domain; from memory. */
function randomOf(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

interface Person {
  readonly name: string;
  readonly host: Host;
  readonly keeper: Keeper;
  /** Ids of their runs, and how many readings each has. */
  readonly runs: { readonly id: string; taken: number }[];
}

const idOf = (person: string, run: number) => `${person}${run}`;
const readingOf = (id: string, n: number) =>
  400 + 10 * Number(id.slice(-1)) + n + (id.startsWith('b') ? 0.5 : 0);

interface Row {
  deeds: number;
  refused: number;
  readings: number;
  lines: number;
  built: number;
}
const table: Record<string, Row> = {};
afterAll(() => console.table(table));

it.each(Array.from({ length: SEEDS }, (_, i) => i + 1))(
  'two people on one workbook lose, double and misplace nothing: seed %i',
  async (seed) => {
    const random = randomOf(seed);
    const { host: first, test } = await createPaneHost();
    const hosts: readonly Host[] = [first, await createExcelHost()];
    const runs = DEEDS > 100 ? 3 : 2;
    const people = hosts.map((host, i): Person => {
      const name = 'ab'[i]!;
      return {
        name,
        host,
        keeper: createKeeper(host, createJournal(new TestShelf(), name)),
        runs: Array.from({ length: runs }, (_, run) => ({ id: idOf(name, run + 1), taken: 0 })),
      };
    });
    for (const { host, runs: own } of people)
      for (const { id } of own) await host.build({ ...PLAN, id, title: `Run ${id}` });
    const row: Row = { deeds: 0, refused: 0, readings: 0, lines: 0, built: 0 };
    table[`seed ${seed}`] = row;
    const lines = new Set<string>();
    const built = new Set<string>();
    const tabOf = async (host: Host, id: string) =>
      (await host.survey()).sheets.find((sheet) => sheet.id === id)!.sheet;

    const deeds: readonly ((person: Person) => Promise<void>)[] = [
      reading,
      reading,
      reading,
      // The tab that a person knows may have another name by the time of the write.
      async ({ host, runs: own }) => {
        const id = own[Math.floor(random() * own.length)]!.id;
        const tab = await tabOf(host, id);
        const name = `Run ${id} ${Math.floor(random() * 1000)}`;
        await test.run(async (context) => {
          context.workbook.worksheets.getItem(tab).name = name;
          await context.sync();
        });
      },
      // Two tabs exchange their names.
      async ({ host }) => {
        const [a, b] = [await tabOf(host, people[0]!.runs[0]!.id), await tabOf(host, people[1]!.runs[0]!.id)];
        await test.run(async (context) => {
          const { worksheets } = context.workbook;
          const [one, other] = [worksheets.getItem(a), worksheets.getItem(b)];
          one.name = `Swap ${Math.floor(random() * 1e6)}`;
          await context.sync();
          other.name = a;
          await context.sync();
          one.name = b;
          await context.sync();
        });
      },
      async ({ host, name }) => {
        const detail = `${name} ${lines.size} ${random()}`;
        lines.add(detail);
        const line: LogLine = {
          when: '2026-11-25T09:30:00Z',
          who: name,
          what: 'built',
          sheet: '',
          detail,
          program: '0.0.0',
        };
        // What was refused waits and is sent again, as the pane does.
        await vi.waitFor(() => host.appendLog([line], `log${name}`), { timeout: 30_000, interval: 50 });
      },
      async ({ host, name }) => {
        const id = `f${name}${built.size}`;
        await host.build({ ...findingsPlan(NOTHING, id), title: 'Findings' });
        built.add(id);
      },
      async ({ host, runs: own }) => {
        const tab = await tabOf(host, own[0]!.id);
        await host.restore(tab, { cells: [{ at: RESULT, formula: PLAN.cells[RESULT]!.formula! }] });
      },
      async ({ host, runs: own }) => void (await host.refresh(await tabOf(host, own[0]!.id))),
    ];

    async function reading({ host, keeper, runs: own }: Person): Promise<void> {
      const run = own.find(({ taken }) => taken < READINGS);
      if (!run) return;
      run.taken++;
      row.readings++;
      const { id, taken } = run;
      const tab = await tabOf(host, id);
      keeper.take(whiteEntry(taken, readingOf(id, taken), tab, { id: `${id}-${taken}`, run: id }), false);
    }

    while (row.deeds < DEEDS) {
      await Promise.all(
        people.map(async (person) => {
          row.deeds++;
          const deed = deeds[Math.floor(random() * deeds.length)]!;
          await deed(person).catch((reason: unknown) => {
            // Refused in words: somebody else was first. Readings and lines wait and come later.
            if (!(reason instanceof HostError) && !isOffice(reason)) throw reason;
            row.refused++;
          });
        }),
      );
    }
    for (const { keeper } of people) {
      await vi.waitFor(
        () => {
          keeper.poke();
          expect(keeper.waiting.value).toEqual([]);
        },
        { timeout: 30_000, interval: 200 },
      );
      keeper.stop();
    }
    await test.engine.calculation.settled();
    const { sheets } = await first.book();
    const ofId = (id: string) => sheets.filter((sheet) => viewOf(sheet).identity?.id === id);
    for (const { runs: own } of people) {
      for (const { id, taken } of own) {
        const [sheet, ...copies] = ofId(id);
        expect(copies).toEqual([]);
        const held = (await first.read(sheet!.name)).values.WhiteReadings!.values.flat();
        const wanted = Array.from({ length: READINGS }, (_, i) => (i < taken ? readingOf(id, i + 1) : null));
        expect(
          held.map((value) => (value === '' ? null : value)),
          id,
        ).toEqual(wanted);
        expect(sheet!.isProtected, id).toBe(true);
      }
    }
    for (const id of built) expect(ofId(id), id).toHaveLength(1);
    const logs = sheets.filter(({ names }) =>
      names.some(({ name, refersTo }) => name === 'LightSheet' && parseIdentity(refersTo)?.kind === 'log'),
    );
    const noted = logs.flatMap((log) => readLog(log).map((texts) => texts[4]!));
    expect(noted.sort()).toEqual([...lines].sort());
    [row.lines, row.built] = [lines.size, built.size];
  },
  900_000,
);

const NOTHING = {
  moment: { when: '2026-11-25T09:30:00Z', who: 'A. Nobody', program: '0.0.0' },
  sheets: [],
  records: [],
  others: [],
  outcome: 'nothing found',
  isCancelled: false,
  findings: [],
};

/** A refusal of the program to a person who renames a tab. */
function isOffice(reason: unknown): boolean {
  return typeof reason === 'object' && reason !== null && 'code' in reason;
}
