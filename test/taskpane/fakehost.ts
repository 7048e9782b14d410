import { SEAL } from '../../src/audit/seal/names';
import {
  type BookRequest,
  type CellArea,
  type CellBlock,
  type CellPlace,
  type CellsByName,
  type CellWrite,
  type Course,
  type Host,
  HostError,
  type HostFacts,
  type KnownSheet,
  type NamedValues,
  type NameEdits,
  type Restoration,
  type Selection,
  type SheetPlace,
  type SheetReading,
  type Survey,
  type WantedNames,
} from '../../src/excel/host';
import { addressOf, cellName, cellsOf, quoteSheet, rectOf } from '../../src/sheets/address';
import type { Book, BookCell, BookSheet, CellValue, DefinedName } from '../../src/sheets/book';
import type { LogLine } from '../../src/sheets/log';
import { besidesOf } from '../../src/sheets/names/beside';
import { IDENTITY, type Identity, type Plan, parseIdentity } from '../../src/sheets/plan';
import { freeName, realize } from '../../src/sheets/realize';

type Verb = keyof Host;

interface Sheet {
  /** Replaced when names, formulas or rules change. */
  book: BookSheet;
  /** Cells changed since it was built: value, and the text shown where it differs from the value. */
  readonly changed: Map<string, { value: CellValue; text?: string }>;
}

/**
 * A spreadsheet program small enough to look through: it holds sheets built from plans, refuses what the real
 * one refuses (missing sheet, locked cell, a cell being edited), and tells its watchers of every change. It
 * does not calculate; tests put results in with `put`.
 */
export class FakeHost implements Host {
  readonly sheets = new Map<string, Sheet>();
  active = 'Sheet1';
  /** Where the cursor is on the sheet in front. */
  cursor = 'A1';
  /** Names of the workbook. */
  names: readonly DefinedName[] = [];
  /** Every call, as "write Run 1 WhiteReadings". */
  readonly calls: string[] = [];
  readonly selected: string[] = [];
  /** What the program would save, and what it opened beside this workbook. */
  saved: Uint8Array = new Uint8Array();
  readonly opened: Uint8Array[] = [];
  /** What it says a cell is computed from, on the platform "with precedents". */
  areas: readonly CellArea[] = [];
  /** Lines of the log. */
  readonly logged: LogLine[] = [];
  /** Failures waiting for the next call of a verb. */
  private readonly failures = new Map<Verb, unknown[]>();
  private readonly watchers = new Set<(sheets?: readonly string[]) => void>();
  private known: HostFacts = { platform: 'fake', isWorkbench: false, decimalComma: false, workbook: '' };

  constructor(facts: Partial<HostFacts> = {}) {
    this.known = { ...this.known, ...facts };
  }

  facts(): HostFacts {
    return this.known;
  }

  get watching(): number {
    return this.watchers.size;
  }

  /** The next call of a verb rejects with this. */
  failNext(verb: Verb, error: unknown): void {
    this.failures.set(verb, [...(this.failures.get(verb) ?? []), error]);
  }

  /** As if a person had typed, or the program had calculated: values of a name, row by row. */
  put(sheet: string, name: string, values: readonly (readonly CellValue[])[], text?: string): void {
    const found = this.sheets.get(sheet)!;
    cellsOf(addressesIn(found.book).get(name) ?? this.cellsOf(found, name)[0]!).forEach((at, i) => {
      const value = values.flat()[i];
      if (value !== undefined) found.changed.set(at, { value, ...(text === undefined ? {} : { text }) });
    });
    this.change();
  }

  activate(sheet: string): void {
    this.active = sheet;
    this.change();
  }

  remove(sheet: string): void {
    this.sheets.delete(sheet);
    this.change();
  }

  /** Tells of a change in some sheets, or of one that may be anywhere. */
  change(sheets?: readonly string[]): void {
    for (const watcher of this.watchers) watcher(sheets);
  }

  /** A long table goes out in two parts here, so that there is a moment to stop it. */
  async build(plan: Plan, { progress, signal }: Course = {}): Promise<{ sheet: string }> {
    await this.begin('build', plan.title);
    if (plan.fills) {
      progress?.(0.5);
      await Promise.resolve();
      if (signal?.aborted) throw new HostError('stopped', 'Building was stopped.', 'Nothing is left of it.');
    }
    const name = freeName(plan.title, [...this.sheets.keys()]);
    this.sheets.set(name, { book: realize(plan, name), changed: new Map() });
    this.active = name;
    this.change();
    return { sheet: name };
  }

  async survey(): Promise<Survey> {
    await this.begin('survey');
    return { active: this.active, sheets: [...this.sheets].map(([name, { book }]) => known(name, book)) };
  }

  async read(sheet: string): Promise<SheetReading> {
    await this.begin('read', sheet);
    const found = this.find(sheet);
    return { ...known(sheet, found.book), values: this.valuesOf(found) };
  }

  async readSome(wanted: WantedNames): Promise<readonly SheetReading[]> {
    await this.begin('readSome', ...Object.keys(wanted));
    const readings: SheetReading[] = [];
    for (const [name, { book }] of this.sheets) {
      const names = wanted[known(name, book).kind];
      if (!names) continue;
      const values = Object.entries(this.valuesOf(this.find(name))).filter(([one]) =>
        (names as readonly string[]).includes(one),
      );
      readings.push({ ...known(name, book), values: Object.fromEntries(values) });
    }
    return readings;
  }

  async rewrite(sheet: string, plan: Plan): Promise<void> {
    await this.begin('rewrite', sheet);
    const found = this.find(sheet);
    const { kind, id, isSealed } = known(sheet, found.book);
    if (kind !== plan.kind || id !== plan.id || isSealed)
      throw new HostError('refused', `\u201c${sheet}\u201d stays as it stands.`, 'Nothing was written.');
    found.changed.clear();
    found.book = realize(plan, sheet);
    this.change();
  }

  /** As if a person had given the sheet another name; formulas that refer to it follow. */
  rename(sheet: string, name: string): void {
    const renamed = [...this.sheets].map(([own, held]) => {
      const book = { ...held.book, name: own === sheet ? name : own };
      const names = book.names.map((each) => ({
        ...each,
        refersTo: each.refersTo.replaceAll(quoteSheet(sheet), quoteSheet(name)),
      }));
      const cells = Object.entries(book.cells).map(([at, cell]): [string, BookCell] => [
        at,
        cell.formula === undefined
          ? cell
          : { ...cell, formula: cell.formula.replaceAll(quoteSheet(sheet), quoteSheet(name)) },
      ]);
      return [
        book.name,
        { book: { ...book, names, cells: Object.fromEntries(cells) }, changed: held.changed },
      ] as const;
    });
    this.sheets.clear();
    for (const [own, held] of renamed) this.sheets.set(own, held);
    if (this.active === sheet) this.active = name;
    this.change();
  }

  async write(sheet: string, name: string, values: readonly (readonly CellValue[])[]): Promise<void> {
    await this.begin('write', sheet, name);
    const found = this.find(sheet);
    const cells = this.cellsOf(found, name);
    for (const at of cells) {
      if (found.book.cells[at]?.style?.locked !== false) {
        throw new HostError(
          'protected',
          `Cell ${at} of \u201c${sheet}\u201d is protected.`,
          'Write into the framed cells only.',
          'AccessDenied',
        );
      }
    }
    cells.forEach((at, i) => {
      const value = values.flat()[i] ?? null;
      if (value !== null) found.changed.set(at, { value });
    });
    this.change();
  }

  async writeCells(place: SheetPlace | string, cells: readonly CellWrite[]): Promise<readonly CellValue[]> {
    const sheet = this.tabOf(place);
    await this.begin(
      'writeCells',
      sheet,
      ...cells.map(({ name, row, column }) => `${name}/${row}/${column}`),
    );
    const found = this.find(sheet);
    const before = this.held(found, cells);
    cells.forEach((cell) => {
      found.changed.set(this.cellAt(found, cell), { value: cell.value });
    });
    this.change();
    return before;
  }

  async readCells(place: SheetPlace | string, places: readonly CellPlace[]): Promise<readonly CellValue[]> {
    const sheet = this.tabOf(place);
    await this.begin('readCells', sheet);
    return this.held(this.find(sheet), places);
  }

  /** A place's tab, if the sheet there still bears the id. */
  protected tabOf(place: SheetPlace | string): string {
    if (typeof place === 'string') return place;
    const found = this.find(place.sheet);
    const mark = found.book.names?.find(({ name }) => name === IDENTITY);
    if (!mark || parseIdentity(mark.refersTo)?.id !== place.id)
      throw new HostError('missing', 'Another sheet by now.', 'Choose again.');
    return place.sheet;
  }

  async readNamed(sheet: string, names: readonly string[]): Promise<CellsByName> {
    await this.begin('readNamed', sheet);
    const values = this.valuesOf(this.find(sheet));
    return Object.fromEntries(
      names.flatMap((name) => {
        const found = values[name];
        return found ? [[name, { address: found.address, values: found.values }]] : [];
      }),
    );
  }

  async writeBlocks(
    sheet: string,
    blocks: readonly CellBlock[],
    { progress, signal }: Course = {},
  ): Promise<void> {
    await this.begin('writeBlocks', sheet, ...new Set(blocks.map(({ name }) => name)));
    const found = this.find(sheet);
    const cells = blocks.flatMap(({ name, row, column, values }) =>
      values.flatMap((line, r) =>
        line.map((value, c) => ({
          at: this.cellAt(found, { name, row: row + r, column: column + c }),
          value,
        })),
      ),
    );
    for (const { at, value } of cells) {
      if (value !== null && found.book.cells[at]?.style?.locked !== false)
        throw new HostError('protected', `Cell ${at} is protected.`, 'Nothing was written.', 'AccessDenied');
    }
    progress?.(0.5);
    await Promise.resolve();
    if (signal?.aborted) throw new HostError('stopped', 'Writing was stopped.', 'Nothing was written.');
    for (const { at, value } of cells) if (value !== null) found.changed.set(at, { value });
    this.change();
  }

  private valuesOf(found: Sheet): Record<string, NamedValues> {
    const values: Record<string, NamedValues> = {};
    for (const [name, address] of addressesIn(found.book)) {
      const { row, column, rows, columns } = rectOf(address);
      const grid = <T>(pick: (at: string) => T) =>
        Array.from({ length: rows }, (_, r) =>
          Array.from({ length: columns }, (_, c) => pick(cellName(row + r, column + c))),
        );
      const value = (at: string) => found.changed.get(at)?.value ?? found.book.cells[at]?.value ?? null;
      const text = (at: string) => found.changed.get(at)?.text ?? shownText(value(at));
      values[name] = { address, values: grid(value), texts: grid(text) };
    }
    return values;
  }

  private held(sheet: Sheet, places: readonly CellPlace[]): CellValue[] {
    return places.map((place) => {
      const at = this.cellAt(sheet, place);
      return sheet.changed.has(at) ? sheet.changed.get(at)!.value : (sheet.book.cells[at]?.value ?? null);
    });
  }

  private cellAt({ book }: Sheet, { name, row, column }: CellPlace): string {
    const found = book.names.find((one) => one.name === name);
    if (!found) {
      throw new HostError(
        'missing',
        `The sheet has no cells called ${name}.`,
        'Build a new run sheet.',
        'ItemNotFound',
      );
    }
    const first = rectOf(found.refersTo.slice(found.refersTo.lastIndexOf('!') + 1));
    return cellName(first.row + row, first.column + column);
  }

  async select(sheet: string, target: string): Promise<void> {
    await this.begin('select', sheet, target);
    this.find(sheet);
    this.selected.push(`${sheet}!${target}`);
  }

  async refresh(sheet: string): Promise<{ formulas: number }> {
    await this.begin('refresh', sheet);
    const { book } = this.find(sheet);
    return { formulas: Object.values(book.cells).filter(({ formula }) => formula !== undefined).length };
  }

  async enterAgain(sheet: string, names: readonly string[]): Promise<{ formulas: number }> {
    await this.begin('enterAgain', sheet, ...names);
    const { book } = this.find(sheet);
    return { formulas: book.names.filter(({ name }) => names.includes(name)).length };
  }

  /** Like the real one it gives only the input rules of the ranges it is asked for. */
  /** It calculates nothing, so there is nothing to wait for. */
  async settled(): Promise<void> {
    await this.begin('settled');
  }

  async book({ sheets: chosen, validations = {} }: BookRequest = {}): Promise<Book> {
    await this.begin('book', ...(chosen ?? []));
    const sheets = [...this.sheets]
      .filter(([name]) => chosen?.includes(name) ?? true)
      .map(([name, { book, changed }]) => {
        const cells = { ...book.cells };
        for (const [at, { value }] of changed) cells[at] = { ...cells[at], value };
        const rules = book.validations.filter(({ range }) => validations[name]?.includes(range));
        return { ...book, name, cells, validations: rules };
      });
    return { sheets, names: this.names };
  }

  async selection(): Promise<Selection> {
    await this.begin('selection');
    return { sheet: this.active, cell: this.cursor };
  }

  async editNames(edits: readonly NameEdits[]): Promise<void> {
    await this.begin('editNames', ...edits.map(({ sheet = 'workbook' }) => sheet));
    for (const { sheet, remove, set } of edits) {
      const gone = new Set([...remove, ...set.map(({ name }) => name)].map((name) => name.toLowerCase()));
      const edited = (names: readonly DefinedName[]) => [
        ...names.filter(({ name }) => !gone.has(name.toLowerCase())),
        ...set,
      ];
      if (sheet === undefined) this.names = edited(this.names);
      else this.edit(sheet, (book) => ({ names: edited(book.names) }));
    }
    this.change();
  }

  async restore(sheet: string, { cells = [], validations = [] }: Restoration): Promise<void> {
    await this.begin(
      'restore',
      sheet,
      ...cells.map(({ at }) => at),
      ...validations.map(({ range }) => range),
    );
    for (const { at, formula, value, format, isLocked } of cells) {
      const { style = {}, ...before } = this.find(sheet).book.cells[at] ?? { value: null };
      this.type(sheet, at, {
        ...before,
        ...(value === undefined ? {} : { value, formula: undefined }),
        ...(formula === undefined ? {} : { formula }),
        style: {
          ...style,
          ...(format === undefined ? {} : { format }),
          ...(isLocked === undefined ? {} : { locked: isLocked }),
        },
      });
    }
    this.edit(sheet, (book) => ({
      isProtected: true,
      validations: [
        ...book.validations.filter(({ range }) => !validations.some((each) => each.range === range)),
        ...validations,
      ],
    }));
    this.change();
  }

  async appendLog(lines: readonly LogLine[]): Promise<void> {
    await this.begin('appendLog', ...lines.map(({ what }) => what));
    this.logged.push(...lines);
  }

  /** What the workbook says of opening the pane. */
  opens: boolean | undefined | 'never' = undefined;
  async opensPane(): Promise<boolean | undefined | 'never'> {
    return this.opens;
  }
  async setOpensPane(opens: boolean): Promise<void> {
    this.opens = opens;
  }

  async file(): Promise<Uint8Array> {
    await this.begin('file');
    return this.saved;
  }

  async openWorkbook(bytes: Uint8Array): Promise<void> {
    await this.begin('openWorkbook');
    this.opened.push(bytes);
  }

  async precedents(sheet: string, cell: string): Promise<readonly CellArea[] | undefined> {
    await this.begin('precedents', sheet, cell);
    return this.known.platform === 'with precedents' ? this.areas : undefined;
  }

  /** As if a person had lifted the protection and put something else into a cell. */
  type(sheet: string, at: string, { formula, ...cell }: BookCell & { formula?: string | undefined }): void {
    this.find(sheet).changed.delete(at);
    const content: BookCell = formula === undefined ? cell : { ...cell, formula };
    this.edit(sheet, ({ cells }) => ({ cells: { ...cells, [at]: content } }));
    this.change();
  }

  /** As if something else of a sheet had been changed by hand. */
  edit(sheet: string, change: (book: BookSheet) => Partial<BookSheet>): void {
    const found = this.find(sheet);
    found.book = { ...found.book, ...change(found.book) };
  }

  async watch(changed: (sheets?: readonly string[]) => void): Promise<() => void> {
    await this.begin('watch');
    this.watchers.add(changed);
    return () => this.watchers.delete(changed);
  }

  private async begin(verb: Verb, ...about: string[]): Promise<void> {
    this.calls.push([verb, ...about].join(' '));
    await Promise.resolve();
    const waiting = this.failures.get(verb);
    if (waiting && waiting.length > 0) throw waiting.shift();
  }

  private find(sheet: string): Sheet {
    const found = this.sheets.get(sheet);
    if (found) return found;
    throw new HostError(
      'missing',
      `The sheet \u201c${sheet}\u201d is not there any more.`,
      'Choose another run, or build a new one.',
      'ItemNotFound',
    );
  }

  private cellsOf({ book }: Sheet, name: string): string[] {
    const found = book.names.find((one) => one.name === name);
    if (!found) {
      throw new HostError(
        'missing',
        `The sheet has no cells called ${name}.`,
        'Build a new run sheet.',
        'ItemNotFound',
      );
    }
    return cellsOf(found.refersTo.slice(found.refersTo.lastIndexOf('!') + 1));
  }
}

/** Where the names of a sheet stand, and what stands beside them and has none. */
function addressesIn({ names }: BookSheet): Map<string, string> {
  const own = new Map(
    names
      .filter(({ hidden }) => !hidden)
      .map(({ name, refersTo }) => [name, addressOf(rectOf(refersTo.slice(refersTo.lastIndexOf('!') + 1)))]),
  );
  const mark = names.find(({ name }) => name === IDENTITY);
  const identity = mark && parseIdentity(mark.refersTo);
  return identity ? new Map([...own, ...besidesOf(identity, own)]) : own;
}

function known(sheet: string, { names }: BookSheet): KnownSheet {
  const identity = parseIdentity(names.find(({ name }) => name === IDENTITY)!.refersTo) as Identity;
  return { sheet, ...identity, ...(names.some(({ name }) => name === SEAL) ? { isSealed: true } : {}) };
}

function shownText(value: CellValue): string {
  if (value === null) return '';
  return typeof value === 'object' ? value.error : String(value);
}
