import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check, isRecord } from '../../src/audit/check/check';
import { SEVERITIES } from '../../src/audit/check/finding';
import { calculateBook } from '../../src/audit/formula/calculate';
import { KINDS } from '../../src/audit/kinds/all';
import { resultsOf } from '../../src/audit/results';
import { publicKeyOf } from '../../src/audit/seal/keyfile';
import { verify } from '../../src/audit/seal/verify';
import { gridOf, ourSheets, type SheetView, viewOf } from '../../src/audit/view';
import type { Book, CellValue } from '../../src/sheets/book';
import type { CellName } from '../../src/sheets/names/all';
import { keptTemplates } from '../../src/template/kept';
import { readXlsx } from '../../src/xlsx';
import { cases } from '../tools/amount';
import {
  type Frozen,
  type FrozenSheet,
  frozenOf,
  GENERATIONS,
  LARGE,
  type Value,
  type Values,
} from './record';

/*
 * A workbook that was ever made stays readable. What each frozen file shows was recorded by the program that made it,
 * and its numbers were held against LibreOffice then (`libreOffice` in the records, `make/` beside them). Today's
 * program must read the same from it, by the names of inputs and results; see README.md for a new generation.
 */

/** A function's table of which the workbench then saved the first cell only: calculated anew it is whole. */
const WAS_CUT = { title: 'first/example-workbench', name: 'FunctionTable' };

/** Further notes are welcome. */
const NOTE = SEVERITIES.indexOf('note');

const FILES = GENERATIONS.flatMap((generation) =>
  generation.files.map((file) => ({ title: `${generation.name}/${file}`, generation, file })),
);

/** Calculated, verified and checked in this run; each file is read as it was in every run. */
const CHECKED = new Set(
  cases(
    FILES.map(({ title }) => title).filter((title) => !LARGE.includes(title)),
    LARGE,
  ),
);

describe.each(FILES)('$title', ({ title, generation, file }) => {
  const { folder } = generation;
  const frozen = frozenOf(generation, file);
  const bytes = new Uint8Array(readFileSync(join(folder, frozen.file)));
  let read: Promise<Book> | undefined;
  const book = () => {
    read ??= readXlsx(bytes);
    return read;
  };

  it('is what was frozen', () => {
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(frozen.sha256);
  });

  it('is read as it was, by name', async () => {
    const { sheets } = await book();
    expect(sheets.map(({ name }) => name)).toEqual(frozen.sheets.map(({ sheet }) => sheet));
    frozen.sheets.forEach((sheet, i) => {
      const view = viewOf(sheets[i]!);
      expect([view.identity?.kind, view.identity?.version]).toEqual([sheet.kind, sheet.version]);
      expect(typedIn(view, sheet), sheet.sheet).toEqual(sheet.typed);
      expect(resultsIn(view, sheet), sheet.sheet).toEqual(valuesOf(sheet));
    });
  });

  it.runIf(CHECKED.has(title))('calculated anew it shows the same digits', async () => {
    const { sheets } = calculateBook(await book());
    frozen.sheets.forEach((sheet, i) => {
      const [now, then] = [resultsIn(viewOf(sheets[i]!), sheet), valuesOf(sheet)];
      for (const [name, value] of Object.entries(then)) {
        if (title === WAS_CUT.title && name === WAS_CUT.name) continue;
        const [a, b] = [cellsIn(now[name]!), cellsIn(value)];
        const at = b.findIndex((each, k) => !same(a[k] ?? null, each));
        expect(at, `${sheet.sheet}, ${name}: ${a[at]} now, ${b[at]} then`).toBe(-1);
      }
    });
  });

  it.runIf(CHECKED.has(title))('its seals hold, or not, as they did', async () => {
    const jwk = join(folder, `${file}.public.jwk`);
    const key = existsSync(jwk) ? publicKeyOf(JSON.parse(readFileSync(jwk, 'utf8'))) : undefined;
    for (const { sheet, state, signature, signer } of frozen.verify.seals) {
      const expectedKey = signature === 'valid' && key ? { expectedKey: key } : {};
      const report = await verify(await book(), sheet, { subtle: crypto.subtle, ...expectedKey });
      expect([report.state, report.signature, report.signer], sheet).toEqual([state, signature, signer]);
    }
  });

  it.runIf(CHECKED.has(title))('a check says nothing worse of it', async () => {
    const { findings } = await check(await book());
    const worst = new Map<string, number>();
    for (const { sheet, at, severity } of frozen.findings) {
      const key = `${sheet} ${at}`;
      worst.set(key, Math.min(worst.get(key) ?? NOTE, SEVERITIES.indexOf(severity)));
    }
    const worse = findings.filter(
      ({ sheet, at, severity }) => SEVERITIES.indexOf(severity) < (worst.get(`${sheet} ${at}`) ?? NOTE),
    );
    expect(worse).toEqual([]);
  });

  it.runIf(CHECKED.has(title))('its results are found by name as they were', async () => {
    const whole = await book();
    const now = new Map<string, Value>();
    for (const view of ourSheets(whole).filter((each) => !isRecord(each))) {
      const found = resultsOf(view, whole);
      expect(found, view.sheet.name).toMatchObject({ known: true });
      if (!found.known) continue;
      for (const { name, value } of found.results) now.set(`${view.sheet.name}, ${name}`, value);
    }
    const isOlder = olderIn(frozen);
    for (const { sheet, name, value } of frozen.results) {
      // A result without a name of its own goes by its cell, which layouts move.
      if (isOlder(sheet) && isCell(name)) continue;
      const key = `${sheet}, ${name}`;
      expect(now.has(key), `${key} is gone`).toBe(true);
      expect(same(now.get(key)!, value), `${key}: ${now.get(key)} now, ${value} then`).toBe(true);
    }
  });
});

const KEPT = FILES.filter(({ generation, file }) =>
  existsSync(join(generation.folder, `${file}.templates.json`)),
);

it.each(KEPT)('templates kept in $title are read as they were', async ({ generation: { folder }, file }) => {
  const { names } = await readXlsx(new Uint8Array(readFileSync(join(folder, `${file}.xlsx`))));
  const then = JSON.parse(readFileSync(join(folder, `${file}.templates.json`), 'utf8'));
  expect(keptTemplates(names)).toMatchObject(then);
});

it('every layout that was ever built since the first generation has frozen files', () => {
  const sheets = FILES.flatMap(({ generation, file }) => frozenOf(generation, file).sheets);
  const frozen = new Set(sheets.map(({ kind, version }) => `${kind} ${version}`));
  // A kind of which nothing is frozen is new: its first layout is frozen before it is raised, like every other.
  const firstOf = (kind: string) => {
    const versions = sheets.filter((each) => each.kind === kind).map(({ version }) => version!);
    return versions.length > 0 ? Math.min(...versions) : 1;
  };
  for (const [kind, { version }] of Object.entries(KINDS)) {
    for (let each = firstOf(kind); each < version; each++)
      expect(frozen.has(`${kind} ${each}`), `no frozen ${kind} of version ${each}`).toBe(true);
  }
});

/** Whether a sheet of that name has a layout that is no longer today's. */
function olderIn({ sheets }: Frozen): (sheet: string) => boolean {
  const older = sheets.filter(({ kind, version }) => {
    const today = KINDS[kind as keyof typeof KINDS];
    return today !== undefined && today.version !== version;
  });
  const names = new Set(older.map(({ sheet }) => sheet));
  return (sheet) => names.has(sheet);
}

const isCell = (name: string) => /^[A-Z]{1,3}\d+$/.test(name);

function typedIn(view: SheetView, { typed }: FrozenSheet): Record<string, Values> {
  return Object.fromEntries(Object.keys(typed).map((name) => [name, valuesAt(view, name)]));
}
function resultsIn(view: SheetView, { results }: FrozenSheet): Record<string, Values> {
  return Object.fromEntries(Object.keys(results).map((name) => [name, valuesAt(view, name)]));
}
function valuesOf({ results }: FrozenSheet): Record<string, Values> {
  return Object.fromEntries(Object.entries(results).map(([name, { value }]) => [name, value]));
}

function valuesAt(view: SheetView, name: string): Values {
  const rows = gridOf(view, name as CellName).map((row) => row.map(plain));
  if (rows[0]?.length !== 1) return rows;
  return rows.length === 1 ? rows[0]![0]! : rows.flat();
}

function plain(value: CellValue): Value {
  return typeof value === 'object' && value !== null ? value.error : value;
}

function cellsIn(values: Values): readonly Value[] {
  return [values].flat(2) as Value[];
}

/** What a seal goes by too: programs agree in quantiles to about nine digits, and sheets print fewer. */
const DIGITS = 1e-8;
/** What is nothing but rounding, where a sum ought to be 0. */
const TINY = 1e-10;
/** Whether two values are one; an empty text is an empty cell. */
function same(a: Value, b: Value): boolean {
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= DIGITS * Math.abs(b) || Math.abs(a - b) < TINY;
  return (a === '' ? null : a) === (b === '' ? null : b);
}
