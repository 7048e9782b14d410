import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { byCause } from '../../src/audit/check/causes';
import { check, isRecord } from '../../src/audit/check/check';
import { calculateBook } from '../../src/audit/formula/calculate';
import { plainCopy } from '../../src/audit/plain';
import { resultsOf } from '../../src/audit/results';
import { verify } from '../../src/audit/seal/verify';
import type { TraceNode } from '../../src/audit/trace/node';
import { trace } from '../../src/audit/trace/trace';
import { gridOf, ourSheets, type SheetView, sheetOf, valueAt, viewOf } from '../../src/audit/view';
import type { Book } from '../../src/sheets/book';
import { comparisonPlan, DEFAULT_COMPARISON } from '../../src/sheets/comparison';
import type { CellName } from '../../src/sheets/names/all';
import { overviewPlan } from '../../src/sheets/overview';
import type { Plan } from '../../src/sheets/plan';
import { realize } from '../../src/sheets/realize';
import { readXlsx } from '../../src/xlsx';
import { handOver } from '../../src/xlsx/handover';
import { certify } from '../../taskpane/accept/certify';
import { takingFor, WANTED as WANTED_BY_LOT } from '../../taskpane/accept/taking';
import { fromAgeingSheet, fromRun } from '../../taskpane/ageing/take';
import { comparedRuns } from '../../taskpane/compare/compared';
import { listedSheet, WANTED as WANTED_BY_OVERVIEW } from '../../taskpane/overview/wanted';
import { sealed } from '../audit/sealing';
import { withSheet } from '../audit/sheets';
import { FakeHost } from '../taskpane/fakehost';
import { cases } from '../tools/amount';
import { GENERATIONS } from './record';

/*
 * What is done with a sheet is done with one of every layout there ever was: followed back, sealed and compared,
 * handed over as a plain copy, compared with others, certified, put into an ageing sheet, a lot and an overview. The
 * sheets are those of test/frozen; what they showed is in their records.
 */

/** The numbers that a sheet shows, whoever computes them: quantiles agree to about nine digits. */
const DIGITS = 8;

const bytesOf = (folder: string, file: string) => new Uint8Array(readFileSync(join(folder, `${file}.xlsx`)));

/** The pane's way to a workbook, over sheets that are there. */
function hostOf({ sheets, names }: Book): FakeHost {
  const host = new FakeHost();
  for (const book of sheets) host.sheets.set(book.name, { book, changed: new Map() });
  host.names = names;
  return host;
}

/** A book with one more sheet, calculated. */
const withPlan = (book: Book, plan: Plan): Book =>
  calculateBook({ ...book, sheets: [...book.sheets, realize(plan, 'New one')] });

const ofKind = (book: Book, kind: string) =>
  ourSheets(book).filter(({ identity }) => identity?.kind === kind);
const one = (view: SheetView, name: CellName) => gridOf(view, name)[0]?.[0];

/** Every node of a chain. */
function* nodesOf(node: TraceNode): Generator<TraceNode> {
  yield node;
  for (const child of node.children) yield* nodesOf(child);
}

/** A generation frozen for one kind alone has no workbook to go on with. */
const WHOLE = GENERATIONS.filter(({ files }) => files.includes('example-command-line'));

describe.each(WHOLE)('sheets of the generation $name', ({ folder, files }) => {
  const read = new Map<string, Promise<Book>>();
  const bookOf = (file: string) => {
    const found = read.get(file) ?? readXlsx(bytesOf(folder, file));
    read.set(file, found);
    return found;
  };
  const plainest = files.filter((file) =>
    /^(run|need|offers|spot|certificate|acceptance|ageing|comparison|overview)-.*(plainest|fullest)$/.test(
      file,
    ),
  );

  const isPlain = (file: string) => file.endsWith('plainest');
  const fullest = plainest.filter((file) => !isPlain(file));

  it.each(cases(plainest.filter(isPlain), fullest))(
    'are followed back to what was typed, without a fault: %s',
    async (file) => {
      const book = await bookOf(file);
      const view = ourSheets(book).at(-1)!;
      const found = resultsOf(view, book);
      expect(found.known && found.results.length).toBeGreaterThan(0);
      if (!found.known) return;
      const numbers = found.results.filter(({ value }) => typeof value === 'number');
      // An overview has no numbers of its own.
      for (const { cell, value } of [numbers[0], numbers.at(-1)].flatMap((each) => each ?? [])) {
        const root = trace(book, view.sheet.name, cell)!;
        const nodes = [...nodesOf(root)];
        expect(root.value).toBe(value);
        expect(nodes.flatMap(({ findings }) => findings)).toEqual([]);
        // What a lot counts may be none of its lines.
        if (view.identity!.kind !== 'acceptance')
          expect(nodes.some(({ formula }) => formula === undefined)).toBe(true);
      }
    },
  );

  it.each(plainest.filter(isPlain))('are sealed and compared: %s', async (file) => {
    const plain = await bookOf(file);
    const view = ourSheets(plain).at(-1)!;
    const { name } = view.sheet;
    const book = await sealed(plain, plain.sheets.indexOf(view.sheet));
    expect((await verify(book, name, { subtle: crypto.subtle })).state).toBe('holds');
    const at = Object.entries(view.sheet.cells).find(
      ([, { value }]) => typeof value === 'string' && value !== '',
    )![0];
    const changed = withSheet(book, plain.sheets.indexOf(view.sheet), (sheet) => ({
      ...sheet,
      cells: { ...sheet.cells, [at]: { ...sheet.cells[at]!, value: 'another text' } },
    }));
    const report = await verify(changed, name, { subtle: crypto.subtle });
    expect([report.state, report.differences.map(({ key }) => key)]).toEqual(['broken', [at]]);
  });

  it.each(['run-plainest', 'certificate-plainest'])('are handed over as a plain copy: %s', async (file) => {
    const book = await bookOf(file);
    const answer = plainCopy(book, { when: '2026-11-25T09:30:00Z', who: 'A. Nobody', program: '0.0.0' }, []);
    if (!answer.ok) throw new Error(answer.why);
    const copy = await readXlsx(await handOver(bytesOf(folder, file), answer.copy));
    for (const view of ourSheets(book)) {
      const now = sheetOf(copy, view.sheet.name)!;
      expect(Object.values(now.sheet.cells).filter(({ formula }) => /LIGHT\./.test(formula ?? ''))).toEqual(
        [],
      );
      for (const at of Object.keys(view.sheet.cells))
        expect(valueAt(now, at) ?? '', at).toEqual(valueAt(view, at) ?? '');
    }
    const { findings } = await check(copy);
    expect(findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
    // What was meant is one thing to tell of a sheet, however many cells it concerns.
    const meant = byCause(findings.filter(({ kind }) => kind === 'kept'));
    expect(meant.map(({ others }) => others.length > 5)).toEqual([true]);
    expect(findings.filter(({ found }) => found.includes('Plain copy of'))).toEqual([]);
  });

  it('are brought into a new comparison, with the numbers they show', async () => {
    const two = ['run-plainest', 'certificate-plainest'];
    const books = await Promise.all(two.map(bookOf));
    const sheets = books.flatMap((book, i) =>
      ofKind(book, 'run').map(({ sheet }) =>
        JSON.parse(
          JSON.stringify({
            ...sheet,
            name: `Run ${i + 1}`,
            names: sheet.names.map((each) => ({
              ...each,
              refersTo: each.refersTo.replace(/^='(?:[^']|'')*'!|^=[^'!"]+!/, `='Run ${i + 1}'!`),
            })),
          }),
        ),
      ),
    );
    const book: Book = { sheets, names: [], active: 'Run 1' } as Book;
    const host = hostOf(book);
    const readings = await Promise.all(sheets.map(({ name }) => host.read(name)));
    const plan = comparisonPlan(
      comparedRuns(readings, 'by what the sheets say', 'by what the sheets say'),
      DEFAULT_COMPARISON,
      'compared1',
    );
    if (!plan.ok) throw new Error('no comparison');
    const made = viewOf(withPlan(book, plan.value).sheets.at(-1)!);
    const then = sheets.map((sheet) => one(viewOf(sheet), 'WhiteLightOutputPlain'));
    const now = Object.values(made.sheet.cells).map(({ value }) => value);
    for (const value of then)
      expect(
        now.some((each) => typeof each === 'number' && Math.abs(each / Number(value) - 1) < 10 ** -DIGITS),
      ).toBe(true);
  });

  it('are certified anew, and taken into an ageing sheet', async () => {
    const book = await bookOf('certificate-plainest');
    const [run] = ofKind(book, 'run');
    const reading = await hostOf(book).read(run!.sheet.name);
    const paper = viewOf(withPlan(book, certify(reading, 'A. Nobody', 'paper1')).sheets.at(-1)!);
    const [then] = ofKind(book, 'certificate');
    for (const name of ['CertifiedWhite', 'CertifiedWhiteU'] as const)
      expect(one(paper, name), name).toEqual(one(then!, name));
    const taken = fromRun(reading);
    if (typeof taken === 'string') throw new Error(taken);
    expect(Number(taken.line.output)).toBeCloseTo(Number(one(run!, 'WhiteLightOutput')), 4);
    const old = await bookOf('ageing-plainest');
    const ageing = ofKind(old, 'ageing')[0]!;
    const { lines } = fromAgeingSheet(await hostOf(old).read(ageing.sheet.name));
    const hours = gridOf(ageing, 'MeasuredHours')
      .flat()
      .filter((each) => typeof each === 'number');
    expect(lines.map((line) => Number(line.hours))).toEqual(hours.length > 0 ? hours : [0]);
  });

  it('are taken into a lot and listed by an overview', async () => {
    const book = await bookOf('example-command-line');
    const host = hostOf(book);
    const lot = ofKind(book, 'acceptance')[0]!;
    const sheets = await host.readSome(WANTED_BY_LOT);
    const { lines } = takingFor(await host.read(lot.sheet.name), lot.sheet.cells, sheets);
    expect(lines.length).toBeGreaterThan(5);
    for (const { line, figures } of lines) {
      const stands = gridOf(lot, 'UnitWhite')[line]?.[0];
      if (typeof stands === 'number') expect(figures.UnitWhite, `line ${line}`).toBeCloseTo(stands, 6);
    }
    const listed = (await host.readSome(WANTED_BY_OVERVIEW)).map(listedSheet);
    const ours = ourSheets(book).filter((view) => !isRecord(view) && view.identity?.kind !== 'overview');
    expect(listed.map(({ sheet }) => sheet)).toEqual(ours.map(({ sheet }) => sheet.name));
    const made = viewOf(withPlan(book, overviewPlan({ sheets: listed, gone: [] }, 'over1')).sheets.at(-1)!);
    const errors = Object.values(made.sheet.cells).filter(
      ({ value }) => typeof value === 'object' && value !== null,
    );
    expect(errors).toEqual([]);
    const words = Object.values(made.sheet.cells).map(({ value }) => value);
    for (const { sheet } of ours) expect(words).toContain(sheet.name);
  });
});
