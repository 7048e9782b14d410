import { afterAll, describe, expect, it } from 'vitest';
import { checkSheet } from '../../src/audit/check/check';
import type { Finding } from '../../src/audit/check/finding';
import { type UpToDate, upToDate } from '../../src/audit/older/update';
import { reopen, seal } from '../../src/audit/seal/seal';
import { verify } from '../../src/audit/seal/verify';
import { viewOf } from '../../src/audit/view';
import type { Host } from '../../src/excel/host';
import { type LogLine, readLog } from '../../src/sheets/log';
import { overviewPlan } from '../../src/sheets/overview';
import { type Plan, parseIdentity } from '../../src/sheets/plan';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import type { Batch } from '../../src/workbench/bridge/wire';
import { auditedBook } from '../../taskpane/trace/auditedbook';
import { repair } from '../../taskpane/trace/repair';
import { rangeNamed } from '../sheets/named';
import { amount } from '../tools/amount';
import { refused, standBetween } from '../workbench/between';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

/*
 * Nothing half done. Each operation is broken off at each of its messages: refused before the program sees it, refused
 * after it did a part of it, its answer lost, and no answer at all. Then nobody's sheet may be open that was protected,
 * and the second try must come to what the first would have. A sample runs every time; LONG=1 takes all and prints the
 * table.
 *
 * Errors: those Excel documents for a batch ("Error handling with the Excel JavaScript API").
 */
const CODES = [
  'AccessDenied',
  'InvalidArgument',
  'ItemNotFound',
  'GeneralException',
  'ActivityLimitReached',
  'InvalidOperationInCellEditMode',
  'ApiNotAvailable',
  'ServiceNotAvailable',
];
/** How long an answer is waited for here, in ms. */
const REPLY = 1_500;

type How = 'refused' | 'half' | 'lost' | 'silent';
const HOWS: readonly How[] = ['refused', 'half', 'lost', 'silent'];

interface World {
  readonly host: Host;
  readonly test: TestHost;
  readonly run: string;
  readonly overview: string;
}

const line = (detail: string): LogLine => ({
  when: '2026-11-25T09:30:00Z',
  who: 'A. Nobody',
  what: 'built',
  sheet: 'Run 1',
  detail,
  program: '0.1.0',
});
const RUN = runPlan(
  { ...defaultRunSetup(), projector: 'Unit 1 (invented)', colour: 'none', black: false },
  'ru1',
);
const OTHER: Plan = { ...RUN, id: 'ru2', title: 'Run of another unit (invented)' };
/** A run of the layout of before, as far as its mark goes. */
const OLDER: Plan = { ...RUN, id: 'old1', title: 'Run of before (invented)', version: RUN.version - 1 };
const overview = (run: string, times: number): Plan =>
  overviewPlan(
    {
      sheets: Array.from({ length: times }, (_, i) => ({
        sheet: run,
        kind: 'run',
        id: `ru${i}`,
        isSealed: false,
        cells: { Projector: { address: 'B6' } },
      })),
      gone: [],
    },
    'ov1',
  );
const result = rangeNamed(RUN, 'WhiteLightOutputPlain');
const sealing = { who: 'A. Nobody', when: '2026-11-25T09:30:00Z', program: '0.0.0', subtle: crypto.subtle };

async function sealOnce({ host, run }: World): Promise<void> {
  const answer = await seal(await auditedBook(host, [run]), run, { ...sealing, newId: () => 'book1' });
  if (answer.ok) await host.editNames(answer.edits);
  else if (!/sealed already/.test(answer.why)) throw new Error(answer.why);
}
const holds = async ({ host, run }: World) => {
  const report = await verify(await auditedBook(host, [run]), run, sealing);
  expect([report.state, report.reasons, report.differences]).toEqual(['holds', [], []]);
};

/** What is done, and what stands when it was done. */
interface Operation {
  readonly act: (world: World) => Promise<unknown>;
  readonly stands: (world: World) => Promise<void>;
}

const SIMPLE: Readonly<Record<string, Operation>> = {
  'a sheet built': {
    act: ({ host }) => host.build(OTHER),
    stands: async ({ host }) => {
      const { sheets } = await host.survey();
      expect(sheets.filter(({ id }) => id === OTHER.id)).toHaveLength(1);
    },
  },
  'an overview written anew': {
    act: ({ host, overview: sheet, run }) => host.rewrite(sheet, overview(run, 3)),
    stands: async ({ host, overview: sheet }) => {
      const { values } = await host.read(sheet);
      expect(values.Marks!.values.flat()).toEqual(['ru0', 'ru1', 'ru2']);
    },
  },
  'the first line of the log': {
    act: ({ host }) => host.appendLog([line('first')], 'log1'),
    stands: async (world) => expect(await details(world)).toEqual(['first']),
  },
  'a seal': { act: sealOnce, stands: holds },
  'a seal opened': {
    act: async (world) => {
      const { host, run } = world;
      const answer = reopen(await auditedBook(host, [run]), run, {
        who: 'A. Nobody',
        when: sealing.when,
        why: 'x',
      });
      if (answer.ok) await host.editNames(answer.edits);
    },
    stands: async ({ host, run }) => {
      const report = await verify(await auditedBook(host, [run]), run, sealing);
      expect([report.state, report.reasons]).toEqual(['none', []]);
    },
  },
  'a formula put back': {
    act: ({ host, run }) =>
      host.restore(run, { cells: [{ at: result, formula: RUN.cells[result]!.formula!, isLocked: true }] }),
    stands: async ({ host, run }) => {
      const [sheet] = (await host.book({ sheets: [run] })).sheets;
      expect(sheet!.cells[result]!.formula).toBeDefined();
    },
  },
  'results refreshed': {
    act: ({ host, run }) => host.refresh(run),
    stands: async ({ host, run }) => {
      const [sheet] = (await host.book({ sheets: [run] })).sheets;
      expect(
        Object.values(sheet!.cells).filter(({ formula }) => formula !== undefined).length,
      ).toBeGreaterThan(50);
    },
  },
};

/** Of a seal beside another one: the register holds both. */
const both: Operation = {
  act: ({ overview: sheet, ...rest }) => sealOnce({ ...rest, overview: sheet, run: sheet }),
  stands: async (made) => {
    await holds(made);
    await holds({ ...made, run: made.overview });
  },
};

/** What a check finds of one kind is repaired as the pane does it; nothing of it is left. */
const repairing = (kind: Finding['kind']): Operation => {
  const found = async ({ host, run }: World) => {
    const book = await auditedBook(host, [run]);
    return checkSheet(viewOf(book.sheets[0]!), book).filter((finding) => finding.kind === kind);
  };
  return {
    act: async (made) => {
      const findings = await found(made);
      if (findings.length > 0) await repair(made.host, findings);
    },
    stands: async (made) => expect(await found(made)).toEqual([]),
  };
};

const renewed = new WeakMap<World, UpToDate>();

/** The new sheet and the table of what differs, as the pane builds them; a second try goes on where the first ended. */
const bringing: Operation = {
  act: async (made) => {
    const { host } = made;
    let ids = 0;
    if (!renewed.has(made)) {
      const moment = { who: 'A. Nobody', when: '2026-11-25T09:30:00Z', program: '0.0.0' };
      const answer = upToDate(await host.book(), OLDER.title, moment, () => `new${++ids}`);
      if (!answer.ok) throw new Error(answer.why);
      renewed.set(made, answer.made);
    }
    const { plan, table } = renewed.get(made)!;
    for (const each of [plan, table]) {
      const { sheets } = await host.survey();
      if (!sheets.some(({ id }) => id === each.id)) await host.build(each);
    }
  },
  stands: async ({ host }) => {
    const { sheets } = await host.survey();
    const ids = sheets.map(({ id }) => id);
    expect(ids.filter((id) => /^(?:new1|new2|old1)$/.test(id ?? '')).sort()).toEqual([
      'new1',
      'new2',
      'old1',
    ]);
  },
};

const OPERATIONS: Readonly<Record<string, Operation>> = {
  ...SIMPLE,
  'a second seal, beside the register of the first': both,
  'an altered formula repaired': repairing('constant'),
  'a lost name repaired': repairing('name'),
  'a sheet brought up to date': bringing,
};

/** What there is before an operation begins. */
async function prepared(name: string, made: World): Promise<World> {
  const { host, run } = made;
  if (name === 'a seal opened' || OPERATIONS[name] === both) await sealOnce(made);
  if (name === 'an altered formula repaired') await host.restore(run, { cells: [{ at: result, value: 5 }] });
  if (name === 'a lost name repaired')
    await host.editNames([{ sheet: run, remove: ['SerialNumber'], set: [] }]);
  if (OPERATIONS[name] === bringing) await host.build(OLDER);
  await made.test.engine.calculation.settled();
  return made;
}

async function details({ host }: World): Promise<string[]> {
  const log = (await host.book()).sheets.find((sheet) =>
    sheet.names.some(
      ({ name, refersTo }) => name === 'LightSheet' && parseIdentity(refersTo)?.kind === 'log',
    ),
  );
  return log ? readLog(log).map((texts) => texts[4]!) : [];
}

async function world(name: string): Promise<World> {
  const { host, test } = await createPaneHost('0.0.0.0', REPLY);
  const { sheet: run } = await host.build(RUN);
  const built = await host.build(overview(run, 2));
  await test.engine.calculation.settled();
  return prepared(name, { host, test, run, overview: built.sheet });
}

/** Breaks the n-th message of what follows off. Of a batch that is half done the first half is. */
function breakOff(
  { test }: World,
  at: number,
  how: How,
  code: string,
): { leave: () => void; met: () => boolean } {
  let [isMet, sent] = [false, 0];
  const leave = standBetween(test, {
    sent(body) {
      if (++sent !== at || how !== 'half') return body;
      const bridged = JSON.parse(body) as { message: { body: unknown } };
      const { message } = bridged;
      const batch = (typeof message.body === 'string' ? JSON.parse(message.body) : message.body) as Batch;
      const half = { ...batch, Actions: batch.Actions.slice(0, Math.ceil(batch.Actions.length / 2)) };
      message.body = typeof message.body === 'string' ? JSON.stringify(half) : half;
      return JSON.stringify(bridged);
    },
    before(count) {
      if (count !== at) return undefined;
      isMet = true;
      if (how === 'refused') return refused(code);
      return how === 'silent' ? new Promise(() => undefined) : undefined;
    },
    after: (count, answer) => (count === at && (how === 'lost' || how === 'half') ? refused(code) : answer),
  });
  return { leave, met: () => isMet };
}

const openSheets = async ({ host }: World) =>
  (await host.book()).sheets
    .filter(({ isProtected, names }) => !isProtected && names.some(({ name }) => name === 'LightSheet'))
    .map(({ name }) => name);

interface Row {
  tries: number;
  'second try stands': number;
  'nothing open': number;
}
const table: Record<string, Row> = {};
afterAll(() => console.table(table));

const ALL = Object.keys(OPERATIONS).flatMap((name) =>
  HOWS.flatMap((how) =>
    [1, 2, 3, 4, 5, 6].flatMap((at) =>
      (how === 'silent' ? ['no reply'] : CODES).map((code) => ({ name, how, at, code })),
    ),
  ),
);
/** Every so manieth, so that each operation and each way is among them. */
const EACH = Math.ceil(ALL.length / amount(13, ALL.length));
const CASES = ALL.filter((_, i) => i % EACH === 0);

describe.each(CASES)('$name, message $at $how ($code)', ({ name, how, at, code }) => {
  it('leaves nothing open, and a second try stands', async () => {
    const made = await world(name);
    const { act, stands } = OPERATIONS[name]!;
    const { leave, met } = breakOff(made, at, how, code);
    const failure = await act(made).then(
      () => undefined,
      (reason: unknown) => reason,
    );
    leave();
    if (!met()) return;
    table[name] ??= { tries: 0, 'second try stands': 0, 'nothing open': 0 };
    table[name].tries++;
    if (failure !== undefined) expect(failure).toMatchObject({ name: 'HostError' });
    expect(await openSheets(made)).toEqual([]);
    table[name]['nothing open']++;
    if (failure !== undefined) await act(made);
    await made.test.engine.calculation.settled();
    await stands(made);
    expect(await openSheets(made)).toEqual([]);
    table[name]['second try stands']++;
  }, 60_000);
});

it('two who seal at the same time both stand: the later one is told, has changed nothing, and seals again', async () => {
  const made = await world('');
  const { host, run, overview: other } = made;
  const sealOf = async (sheet: string, newId: string) => {
    const own = await auditedBook(host, [sheet]);
    const answer = await seal(own, sheet, { ...sealing, newId: () => newId });
    if (!answer.ok) throw new Error(answer.why);
    return answer.edits;
  };
  const [mine, theirs] = [await sealOf(run, 'mine'), await sealOf(other, 'theirs')];
  await host.editNames(theirs);
  await expect(host.editNames(mine)).rejects.toMatchObject({ trouble: 'busy', detail: 'names changed' });
  expect((await host.survey()).sheets.map(({ isSealed }) => isSealed === true)).toEqual([false, true]);
  await host.editNames(await sealOf(run, 'mine'));
  await holds(made);
  await holds({ ...made, run: other });
  expect(await openSheets(made)).toEqual([]);
}, 60_000);

it('a reply that never comes ends in words after the time it is waited for', async () => {
  const made = await world('');
  const { leave } = breakOff(made, 1, 'silent', '');
  await expect(made.host.refresh(made.run)).rejects.toMatchObject({
    trouble: 'busy',
    message: expect.stringMatching(/^The spreadsheet program has not answered for \d+ seconds\./),
  });
  leave();
}, 60_000);
