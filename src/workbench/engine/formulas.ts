import type { FUniver } from '@univerjs/core/facade';
import { internalName, type Name, Names, parseInternal } from './names';
import type { CellTable, Port } from './port';
import { sameName } from './sheetname';
import { tokenize } from './tokens';
import { decode, encode, OMITTED, type SheetNames } from './translate';

/** Stands in formulas for an argument left out; no person would type it. */
export const OMITTED_TEXT = '\u0000omitted';

/** Keeps the engine's names and formulas in step with the workbook's. */
export class Formulas {
  readonly names = new Names();
  readonly #known = new Set<string>();
  /** Where the engine put names back to that an undo restored, until the next refresh. */
  readonly #restored = new Map<Name, string>();
  /** Words in formulas that were no names when they were written: one may be defined later. */
  readonly #missed = new Set<string>();
  /** Forms of names the engine has again although newer ones stand in the formulas. */
  readonly #stale = new Set<string>();
  readonly #sheets: SheetNames;

  constructor(readonly engine: { readonly api: FUniver; readonly port: Port }) {
    const { port } = engine;
    this.#sheets = {
      idOf: (name) => port.sheetIds().find((id) => sameName(port.sheetName(id), name)),
      nameOf: (id) => port.sheetName(id),
    };
  }

  encode(formula: string, sheet: string): string {
    const encoded = encode(
      formula,
      sheet,
      this.names,
      this.#sheets,
      (name, qualified) => this.#register(name, qualified),
      (word) => this.#missed.add(word.toLowerCase()),
    );
    if (encoded.includes(OMITTED) && !this.#known.has(OMITTED)) {
      this.#known.add(OMITTED);
      this.engine.port.defineName(OMITTED, `="${OMITTED_TEXT}"`, true);
    }
    return encoded;
  }
  decode(formula: string, sheet: string): string {
    return decode(formula, sheet, this.names, this.#sheets);
  }

  /**
   * Whether the engine can read a formula at all. Asked with the words a person used: the engine keeps what it
   * has read, and must not meet its own names here without their meaning.
   */
  isWellFormed(formula: string): boolean {
    return typeof this.engine.api.getFormula().lexerTreeBuilder.treeBuilder(formula) !== 'string';
  }
  /** How many closing brackets Excel would add to a formula a person left open. */
  missingBrackets(formula: string): number {
    return this.engine.api.getFormula().lexerTreeBuilder.checkIfAddBracket(formula);
  }

  /** Adds a name; formulas that already use the word now mean it. */
  define(name: string, sheet: string | undefined, refersTo: string, comment = '', hidden = false): Name {
    const added = this.names.add(name, sheet, refersTo, comment, hidden);
    const word = name.toLowerCase();
    const hides = sheet !== undefined && this.names.find(name, undefined) !== undefined;
    if (hides || this.#missed.has(word)) {
      this.#rewrite(() => this.#register(added, false), word);
      this.#renewDependants(added);
    } else this.#register(added, false);
    return added;
  }
  redefine(name: Name, refersTo: string): void {
    this.#rewrite(() => {
      this.#forget(name);
      name.refersTo = refersTo;
      this.names.renew(name);
      this.#register(name, false);
    }, name.name);
    this.#renewDependants(name);
  }
  remove(name: Name): void {
    this.#rewrite(() => {
      this.#forget(name);
      this.names.remove(name);
    }, name.name);
    this.#renewDependants(name);
  }
  /** The names of a sheet that is gone; they come back with it if that is undone. */
  dropSheet(sheet: string): readonly Name[] {
    const dropped = this.names.of(sheet);
    for (const name of dropped) {
      this.#forget(name);
      this.names.remove(name);
    }
    this.refresh();
    return dropped;
  }
  restoreNames(names: readonly Name[]): void {
    for (const name of names) this.names.restore(name);
    this.refresh();
  }
  /**
   * After sheets were renamed or rows and columns came and went: takes over where the engine moved the names
   * to, then gives every name a new serial, because the engine goes on computing with the old places.
   */
  refresh(): void {
    const { port } = this.engine;
    for (const name of this.names.all()) {
      const moved = this.#restored.get(name) ?? port.namedReference(internalName(name));
      if (moved !== undefined) name.refersTo = withEquals(this.decode(moved, name.sheet ?? this.#anySheet()));
    }
    this.#restored.clear();
    this.#renew();
    for (const internal of this.#stale) if (this.#known.delete(internal)) port.removeName(internal);
    this.#stale.clear();
  }
  /**
   * The engine moved one of our names, or an undo brought an older form of it back. Answers whether it was one
   * of ours; the names must then be refreshed.
   */
  noteMoved(internal: string, refersTo: string): boolean {
    const serial = parseInternal(internal)?.serial;
    const name = serial === undefined ? undefined : this.names.bySerial(serial);
    if (name) {
      this.#restored.set(name, refersTo);
      this.#known.add(internal);
      this.#stale.add(internal);
    }
    return name !== undefined || internal === OMITTED;
  }
  /** A name a person made in the engine's own list becomes one of ours. */
  adoptName(name: string, refersTo: string, sheet: string | undefined): void {
    this.engine.port.removeNameOf(name);
    if (!this.names.find(name, sheet)) this.define(name, sheet, withEquals(refersTo));
  }
  /** A formula a person has just typed in the engine's own cell editor. */
  adopt(sheet: string, row: number, column: number): void {
    const cell = this.engine.port.cell(sheet, row, column);
    if (!cell?.f) return;
    const encoded = this.encode(this.decode(cell.f, sheet), sheet);
    if (encoded !== cell.f) this.engine.port.write(sheet, { [row]: { [column]: { f: encoded, si: null } } });
  }

  #renew(): void {
    this.#rewrite(() => {
      for (const name of this.names.all()) this.#forget(name);
      for (const name of this.names.all()) this.names.renew(name);
      for (const name of this.names.all()) this.#register(name, false);
    });
  }
  /** Names whose definition uses the changed one would go on meaning the old one. */
  #renewDependants(changed: Name): void {
    const word = changed.name.toLowerCase();
    const uses = (name: Name) =>
      name !== changed &&
      tokenize(name.refersTo).some(({ kind, text }) => kind === 'name' && text.toLowerCase() === word);
    if (this.names.all().some(uses)) this.#renew();
  }
  #anySheet(): string {
    return this.engine.port.sheetIds()[0]!;
  }
  #register(name: Name, qualified: boolean): void {
    const internal = internalName(name, qualified);
    if (this.#known.has(internal)) return;
    this.#known.add(internal);
    const refersTo = this.encode(name.refersTo, name.sheet ?? this.#anySheet());
    this.engine.port.defineName(internal, engineReference(refersTo), name.hidden || qualified);
  }
  #forget(name: Name): void {
    for (const qualified of [false, true]) {
      const internal = internalName(name, qualified);
      if (this.#known.delete(internal)) this.engine.port.removeName(internal);
    }
  }
  /** Reads the formulas that could be concerned, makes the change, and writes them again in the new words. */
  #rewrite(change: () => void, word?: string): void {
    const { port } = this.engine;
    const wanted = word?.toLowerCase();
    const read = port.sheetIds().map((sheet) => {
      const formulas: { row: number; column: number; was: string; text: string }[] = [];
      for (const { row, column, cell } of port.cells(sheet)) {
        const was = cell.f ?? (cell.si ? port.cell(sheet, row, column)?.f : undefined);
        if (!was || (wanted !== undefined && !was.toLowerCase().includes(wanted))) continue;
        if (wanted === undefined && !hasInternal(was)) continue;
        formulas.push({ row, column, was, text: this.decode(was, sheet) });
      }
      return { sheet, formulas };
    });
    change();
    for (const { sheet, formulas } of read) {
      const table: CellTable = {};
      for (const { row, column, was, text } of formulas) {
        const f = this.encode(text, sheet);
        if (f === was) continue;
        table[row] ??= {};
        table[row][column] = { f, si: null };
      }
      if (Object.keys(table).length > 0) port.write(sheet, table);
    }
  }
}

function hasInternal(formula: string): boolean {
  return (
    /\.[0-9]/.test(formula) && formula.split(/[^A-Za-z0-9_.\\?\p{L}]/u).some((word) => parseInternal(word))
  );
}
function withEquals(text: string): string {
  return text.startsWith('=') ? text : `=${text}`;
}
/** The engine wants a plain reference without "=", and anything else with it. */
function engineReference(refersTo: string): string {
  return /^=(?:'(?:[^']|'')+'|[^'!()"]+)!\$?[A-Z]+\$?[0-9]*(?::\$?[A-Z]+\$?[0-9]*)?$/i.test(refersTo)
    ? refersTo.slice(1)
    : refersTo;
}
