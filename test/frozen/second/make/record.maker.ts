/*
 * A record of how the files beside it were made, run once at commit b2da8a1; see files.maker.ts.
 *
 * Last step: what each workbook shows, as the program of that commit reads it, what its command line says of it, and
 * what LibreOffice makes of the same formulas. One `.json` a workbook.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { format } from 'numfmt';
import { expect, it } from 'vitest';
import { gridAt, type SheetView, viewOf } from '../../../../src/audit/view';
import { cellsOf } from '../../../../src/sheets/address';
import type { CellValue } from '../../../../src/sheets/book';
import { readXlsx } from '../../../../src/xlsx';

/** Values by file, sheet and cell. */
type Calculated = Record<string, Record<string, Record<string, CellValue>>>;

const HERE = join(import.meta.dirname, '..');
const LIGHT = join(HERE, '..', '..', '..', '.tsbuild', 'light', 'light.mjs');
const COMMIT = 'b2da8a1';
/** As two programs agree on square roots and quantiles. */
const TOLERANCE = 1e-8;

const plain = (value: CellValue) => (typeof value === 'object' && value !== null ? value.error : value);

/** What a person sees of a value in its cell. */
function shown(view: SheetView, at: string): string {
  const cell = view.sheet.cells[at];
  const value = plain(cell?.value ?? null);
  if (value === null) return '';
  return typeof value === 'number' ? format(cell?.style?.format || 'General', value) : String(value);
}

/** A value, or the rows of an area; a column of one is a list. */
function valuesOf(view: SheetView, address: string, look: (at: string) => unknown) {
  const rows = gridAt(view, address, (at) => look(at) as CellValue)!;
  if (rows.length === 1 && rows[0]!.length === 1) return rows[0]![0];
  return rows[0]!.length === 1 ? rows.flat() : rows;
}

interface Named {
  readonly value: unknown;
  readonly shown?: unknown;
}

function namesOf(view: SheetView) {
  const typed: Record<string, unknown> = {};
  const results: Record<string, Named> = {};
  const all = [...view.places.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const { name, address } of all) {
    const value = valuesOf(view, address, (at) => plain(view.sheet.cells[at]?.value ?? null));
    const isComputed = cellsOf(address).some((at) => isResult(view, at));
    if (isComputed) results[name] = { value, shown: valuesOf(view, address, (at) => shown(view, at)) };
    else typed[name] = value;
  }
  return { typed, results };
}

/** Cells that array results of other cells fill are results as well. */
const spilled = new Map<SheetView, Set<string>>();
function isResult(view: SheetView, at: string): boolean {
  if (!spilled.has(view)) {
    const areas = Object.values(view.sheet.cells).flatMap(({ spill }) => (spill ? cellsOf(spill) : []));
    spilled.set(view, new Set(areas));
  }
  return view.sheet.cells[at]?.formula !== undefined || spilled.get(view)!.has(at);
}

/**
 * Every named number of the sheet held against LibreOffice, which knows none of our functions: where it has an error,
 * its plain formula of the same name, where there is one, stands for the function.
 */
function heldAgainst(view: SheetView, other: Record<string, CellValue>) {
  let [agree, worst] = [0, 0];
  const differ: string[] = [];
  const alone = new Set<string>();
  for (const { name, address } of view.places.values()) {
    const twins = cellsOf(view.places.get(`${name}plain`.toLowerCase())?.address ?? 'A1');
    const hasTwin = view.places.has(`${name}plain`.toLowerCase());
    cellsOf(address).forEach((at, i) => {
      if (!isResult(view, at)) return;
      const here = view.sheet.cells[at]?.value ?? null;
      if (typeof here !== 'number') return;
      let there = other[at] ?? null;
      if (typeof there !== 'number' && hasTwin) there = other[twins[i]!] ?? null;
      if (typeof there !== 'number') {
        alone.add(name);
        return;
      }
      const off = Math.abs(here - there) / Math.max(Math.abs(here), 1e-6);
      worst = Math.max(worst, off);
      if (off <= TOLERANCE) agree++;
      else differ.push(`${name} ${at}: ${here}, LibreOffice ${there}`);
    });
  }
  return { agree, worst: Number(worst.toExponential(1)), differ, ofFunctionsOnly: [...alone].sort() };
}

function light(...args: string[]) {
  const { status, stdout, stderr } = spawnSync('node', [LIGHT, ...args], {
    cwd: HERE,
    encoding: 'utf8',
    maxBuffer: 1e9,
  });
  return { status, stdout, stderr };
}

/** What the command line says of a workbook. */
function told(name: string) {
  const check = light('check', name);
  const verify = light('verify', name, '--format', 'json');
  const results = light('results', name, '--format', 'json');
  return {
    check: { exit: check.status, says: check.stdout.trimEnd().split('\n') },
    findings: JSON.parse(light('check', name, '--format', 'json').stdout).findings,
    verify: { exit: verify.status, seals: JSON.parse(verify.stdout) },
    results: results.status === 0 ? JSON.parse(results.stdout) : [],
  };
}

/** JSON with a line for each thing on its lowest levels: to be read by people, and compared line by line. */
function lines(value: unknown, depth: number): string {
  const isTree = typeof value === 'object' && value !== null && Object.keys(value).length > 0;
  if (depth === 0 || !isTree) return JSON.stringify(value);
  if (Array.isArray(value)) return `[\n${value.map((each) => lines(each, depth - 1)).join(',\n')}\n]`;
  const entries = Object.entries(value)
    .filter(([, each]) => each !== undefined)
    .map(([key, each]) => `${JSON.stringify(key)}: ${lines(each, depth - 1)}`);
  return `{\n${entries.join(',\n')}\n}`;
}

const FILES = readdirSync(HERE).filter((name) => name.endsWith('.xlsx'));

it('records what every file shows', async () => {
  const bytes = FILES.map((name) => new Uint8Array(readFileSync(join(HERE, name))));
  const calculated = join(tmpdir(), 'frozen-second-libreoffice.json');
  const theirs: Calculated = existsSync(calculated) ? JSON.parse(readFileSync(calculated, 'utf8')) : {};

  for (const [i, name] of FILES.entries()) {
    const book = await readXlsx(bytes[i]!);
    const sheets = book.sheets.map((sheet) => {
      const view = viewOf(sheet);
      const { kind, version, id } = view.identity ?? {};
      const other = theirs[name]?.[sheet.name];
      const against = other && heldAgainst(view, other);
      return { sheet: sheet.name, kind, version, id, libreOffice: against, ...namesOf(view) };
    });
    const sha256 = createHash('sha256').update(bytes[i]!).digest('hex');
    const path = join(HERE, `${basename(name, '.xlsx')}.json`);
    const before = existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) : {};
    const { check, findings, verify, results } = before.sha256 === sha256 ? before : told(name);
    const record = { file: name, sha256, program: COMMIT, sheets, check, findings, verify, results };
    const text = Object.entries(record).map(
      ([key, value]) =>
        `${JSON.stringify(key)}: ${lines(value, key === 'sheets' ? 3 : key === 'verify' ? 3 : 1)}`,
    );
    writeFileSync(path, `{\n${text.join(',\n')}\n}\n`);
  }
  expect(FILES.length).toBeGreaterThan(0);
});
