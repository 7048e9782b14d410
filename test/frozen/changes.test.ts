import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import type { Finding } from '../../src/audit/check/finding';
import { KINDS } from '../../src/audit/kinds/all';
import { checkRenewed } from '../../src/audit/older/compare';
import { ofItsTime } from '../../src/audit/older/functions';
import { METHOD_CHANGES, type MethodChange } from '../../src/audit/older/methods';
import { type Renewed, renewedSheets } from '../../src/audit/older/renew';
import { isOlder } from '../../src/audit/today';
import { trace } from '../../src/audit/trace/trace';
import { ourSheets, valueAt, viewOf } from '../../src/audit/view';
import { cellsOf } from '../../src/sheets/address';
import type { Book } from '../../src/sheets/book';
import { readXlsx } from '../../src/xlsx';
import { changesOf } from '../audit/changes';
import { sealed } from '../audit/sealing';
import { withSheet } from '../audit/sheets';
import { grouped, Trial } from '../audit/trial';
import { rangeNamed } from '../sheets/named';
import { amount } from '../tools/amount';

/*
 * Sheets of earlier layouts are checked by building them again from what was typed. One small change after another is
 * found as on a sheet of today (test/audit/everychange), and a change of method is told from a change of a number.
 */

const frozen = async (file: string): Promise<Book> =>
  readXlsx(new Uint8Array(readFileSync(join(import.meta.dirname, 'first', `${file}.xlsx`))));

/** Every so many changes of one; with LONG all of them. */
const CASES: readonly (readonly [file: string, each: number])[] = [
  ['run-plainest', 211],
  ['need-plainest', 17],
  ['offers-plainest', 17],
  ['spot-fullest', 29],
  ['certificate-plainest', 17],
  ['acceptance-plainest', 301],
  ['ageing-plainest', 301],
  ['batch-white-plainest', 151],
];

/**
 * What a check of an older sheet does not tell at its own cell or name, seen when every change was made; a seal tells it.
 * All but the first leave the numbers wrong that rest on them, which is told where those stand.
 */
const UNKNOWN: readonly RegExp[] = [
  // Number formats and locks of cells that only this layout had: of those, contents are known and nothing else.
  /^run-plainest (?:lock [ACH]7[45]|format [BDEFHJK][6-9]\d)$/,
  /^acceptance-plainest format [A-J](?:8[6-9]|9\d|10[0-3])$/,
  // Labels beside entries that stand elsewhere today, and contents of lines that today's budget has not.
  /^run-plainest removed (?:A(?:4[2-8]|5[0-2])|[BFHJK]7[45])$/,
  // How many readings are there, in words: today's formula says it otherwise, and stands below the grid.
  /^run-plainest formula A24$/,
  // Names of lists whose lines are others today, moved by a row: where they ended is not known.
  /^run-plainest name (?:AmbientLux|WhiteRemarks|\w*Agreement|Cause\w+|(?:White|Luminance|Uniformity)(?:Components|Halves|Shapes|Sensitivities|Nu|Parts|Shares))$/,
];

it.each(CASES)(
  'a change of one thing on an older sheet is found: %s',
  async (file, each) => {
    const plain = await frozen(file);
    const last = ourSheets(plain).at(-1)!;
    expect(isOlder(last)).toBe(true);
    const place = plain.sheets.indexOf(last.sheet);
    const book = await sealed(plain, place);
    const sheet = book.sheets[place]!;
    const trial = new Trial(book, place);
    const every = Math.max(1, Math.round(each / amount(1, each)));
    const changes = [...changesOf(sheet)].filter((_change, i) => i % every === 0);
    const missed: string[] = [];
    for (const group of grouped(changes, sheet)) {
      const found = await trial.missed(group);
      for (const { what, key } of [...found.check, ...found.seal]) missed.push(`${file} ${what} ${key}`);
    }
    expect(missed.filter((each) => !UNKNOWN.some((known) => known.test(each)))).toEqual([]);
    expect(changes.length).toBeGreaterThan(10);
  },
  amount(600_000, 3_600_000),
);

it('a reading that was changed without a calculation is found, with what rests on it', async () => {
  const book = await frozen('certificate-plainest');
  const run = ourSheets(book).find(({ identity }) => identity?.kind === 'run')!;
  const at = run.places.get('whitereadings')!.address.split(':')[0]!;
  const before = (await check(book)).findings;
  const changed = withSheet(book, book.sheets.indexOf(run.sheet), (sheet) => ({
    ...sheet,
    cells: { ...sheet.cells, [at]: { ...sheet.cells[at]!, value: 1.1 * Number(valueAt(run, at)) } },
  }));
  const { findings } = await check(changed);
  const told = new Set(
    findings.filter(({ severity }) => severity === 'error').map(({ sheet, at: cell }) => `${sheet} ${cell}`),
  );
  expect(before.filter(({ severity }) => severity === 'error')).toEqual([]);
  // U follows from a method that has changed since, and from the readings by the method of its time.
  for (const name of ['WhiteNet', 'WhiteLightOutput', 'WhiteExpanded']) {
    const cell = run.places.get(name.toLowerCase())!.address.split(':')[0];
    expect(told, name).toContain(`${run.sheet.name} ${cell}`);
  }
  const certificate = ourSheets(book).find(({ identity }) => identity?.kind === 'certificate')!;
  expect(told).toContain(`${certificate.sheet.name} ${certificate.places.get('certifiedwhite')!.address}`);
});

it('a number that a changed method explains is a note with its reason, on the sheet and on what is linked to it', async () => {
  const book = await frozen('certificate-plainest');
  const all = renewedSheets(book);
  const [run, certificate] = ['run', 'certificate'].map(
    (kind) => [...all.values()].find(({ older }) => older.identity!.kind === kind)!,
  ) as [Renewed, Renewed];
  for (const each of [run, certificate]) {
    const found = checkRenewed(each, all);
    expect(new Set(found.map(({ kind, severity }) => `${kind} ${severity}`))).toEqual(
      new Set(['method note']),
    );
  }
  const told = checkRenewed(run, all).find(({ message }) => message.includes('the placing of the meter'));
  expect(told!.message).toMatch(/^The method has changed since the sheet was built\./);
  // The same figures altered: no change of method explains them, nor one that it has nothing to do with.
  const altered = ({ older, plan, places }: Renewed, values: Readonly<Record<string, number>>) => {
    const cells = { ...older.sheet.cells };
    for (const [name, value] of Object.entries(values)) {
      const at = places.get(rangeNamed(plan, name))!;
      cells[at] = { ...cells[at]!, value };
    }
    return viewOf({ ...older.sheet, cells });
  };
  const wrong = (each: Renewed, older: Renewed['older']) =>
    checkRenewed({ ...each, older }, all)
      .filter(({ kind }) => kind !== 'method')
      .map(({ kind, severity, at }) => [kind, severity, at]);
  const at = ({ plan, places }: Renewed, name: string) => places.get(rangeNamed(plan, name))!;
  expect(wrong(run, altered(run, { WhiteU: 1, ImageArea: 3 }))).toEqual(
    expect.arrayContaining([
      ['recomputed', 'error', at(run, 'ImageArea')],
      ['recomputed', 'error', at(run, 'WhiteU')],
    ]),
  );
  expect(wrong(certificate, altered(certificate, { CertifiedWhiteU: 5 }))).toEqual([
    ['recomputed', 'error', at(certificate, 'CertifiedWhiteU')],
  ]);
});

it('a figure of an older sheet is traced to its readings, in words', async () => {
  const book = await frozen('run-fullest-fields');
  const [run] = ourSheets(book);
  const root = trace(book, run!.sheet.name, 'WhiteLightOutput')!;
  const text = JSON.stringify(root);
  expect(root.label.toLowerCase()).toContain('white light output');
  expect(text).toContain('read with');
  expect(text).toContain('top left');
});

it('a function’s result whose method has changed is held against the plain formula of its time', async () => {
  const book = await frozen('run-fullest-fields');
  const all = renewedSheets(book);
  const [renewed] = [...all.values()] as [Renewed];
  const { older, plan } = renewed;
  const at = renewed.places.get(rangeNamed(plan, 'WhiteExpanded'))!;
  const change: MethodChange = {
    kind: 'run',
    layout: older.identity!.version + 1,
    since: '9.9',
    names: ['WhiteExpanded'],
    words: 'The weather is modelled since 9.9.',
  };
  const stale = (found: Renewed): Finding[] =>
    ofItsTime(
      [
        {
          sheet: older.sheet.name,
          at,
          kind: 'stale',
          severity: 'error',
          message: `${at} does not hold what its formula gives.`,
          expected: 'what today’s function gives',
          found: 'what that of its time gave',
        },
      ],
      found,
      all,
      KINDS.run!,
      book,
      [change],
    );
  expect(stale(renewed)).toEqual([]);
  const cell = older.sheet.cells[at]!;
  const altered = viewOf({
    ...older.sheet,
    cells: { ...older.sheet.cells, [at]: { ...cell, value: 0.9 * Number(cell.value) } },
  });
  expect(stale({ ...renewed, older: altered })).toHaveLength(1);
});

it('a number at a name whose method has changed is no freer than others', async () => {
  const book = await frozen('ageing-fullest');
  const altered = (value: unknown) => (typeof value === 'number' ? 1.01 * value : 'altered');
  const [ageing] = ourSheets(book).filter(({ identity }) => identity?.kind === 'ageing');
  for (const name of METHOD_CHANGES.filter(({ kind }) => kind === 'ageing').flatMap(({ names }) => names)) {
    const [at] = cellsOf(ageing!.places.get(name.toLowerCase())!.address);
    const changed = withSheet(book, book.sheets.indexOf(ageing!.sheet), (sheet) => ({
      ...sheet,
      cells: { ...sheet.cells, [at!]: { ...sheet.cells[at!]!, value: altered(valueAt(ageing!, at!)) } },
    }));
    const { findings } = await check(changed);
    const own = findings.filter((finding) => finding.at === at && finding.sheet === ageing!.sheet.name);
    // Words beside figures weigh less than these, on a sheet of today as well.
    const weight = typeof valueAt(ageing!, at!) === 'number' ? 'error' : 'warning';
    expect(
      own.map(({ severity }) => severity),
      name,
    ).toContain(weight);
  }
});
