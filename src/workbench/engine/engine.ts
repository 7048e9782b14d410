import type { FUniver } from '@univerjs/core/facade';
import type { Rect } from '../../sheets/address';
import { ApiError } from '../errors';
import { Calculation } from './calculation';
import { Events } from './events';
import { Formulas } from './formulas';
import { CustomFunctions } from './functions';
import type { Ground, Looking } from './ground';
import type { Place } from './later';
import { Mirror } from './mirror';
import type { Name } from './names';
import { Port } from './port';
import { around, corners, intersection } from './reference';
import type { Protection } from './rules';
import { Sheet } from './sheet';
import { isSheetName, sameName } from './sheetname';

/**
 * A workbook as Excel keeps it, on top of the embedded spreadsheet engine. It throws what Excel throws
 * (`ApiError`), and knows nothing of how it is asked: `bridge/` and `api/` speak Excel's protocol over it. `people.ts` and `results.ts` tell it what happens
 * in the embedded engine.
 */
export class Engine implements Ground {
  readonly port: Port;
  readonly calculation: Calculation;
  readonly events = new Events();
  readonly formulas: Formulas;
  readonly functions: CustomFunctions;
  /** Set while a person types into a cell. */
  #isEditing = false;
  #editingEnded: (() => void)[] = [];
  #sheets = new Map<string, Sheet>();
  readonly #gone = new Map<string, { sheet: Sheet; names: readonly Name[] }>();
  #active: string;
  #nextSheet = 1;
  #nextId = 1;
  /** `workbook.settings`. */
  readonly settings = new Map<string, unknown>();
  readonly #mirror = new Mirror();
  /** How many hold looks back, and whose looks wait. */
  #holding = 0;
  readonly #waiting = new Set<Looking>();
  #evaluation: Promise<unknown> = Promise.resolve();

  constructor(readonly api: FUniver) {
    this.port = new Port(api);
    this.calculation = new Calculation(api);
    this.formulas = new Formulas(this);
    this.functions = new CustomFunctions(this, (places) => this.recalculateCells(places));
    this.#active = this.port.workbook.getActiveSheet().getSheetId();
  }

  get names() {
    return this.formulas.names;
  }
  encode(formula: string, sheet: string): string {
    return this.formulas.encode(formula, sheet);
  }
  decode(formula: string, sheet: string): string {
    return this.formulas.decode(formula, sheet);
  }

  get isEditing(): boolean {
    return this.#isEditing;
  }
  set isEditing(editing: boolean) {
    this.#isEditing = editing;
    if (!editing) for (const resolve of this.#editingEnded.splice(0)) resolve();
  }
  /** Resolves when nobody types into a cell. */
  editingEnded(): Promise<void> {
    return this.#isEditing ? new Promise((resolve) => this.#editingEnded.push(resolve)) : Promise.resolve();
  }

  /** In tab order. */
  sheets(): Sheet[] {
    return this.port.sheetIds().map((id) => this.sheetById(id)!);
  }
  sheetById(id: string): Sheet | undefined {
    if (!this.port.sheetIds().includes(id)) return undefined;
    let sheet = this.#sheets.get(id);
    if (!sheet) {
      sheet = new Sheet(this, id);
      this.#sheets.set(id, sheet);
    }
    return sheet;
  }
  sheetByName(name: string): Sheet | undefined {
    return this.sheets().find((sheet) => sameName(sheet.name, name));
  }
  /** By name or id; ItemNotFound when there is none. */
  requireSheet(key: string): Sheet {
    const sheet = this.sheetByName(key) ?? this.sheetById(key);
    if (!sheet) throw new ApiError('ItemNotFound', `There is no sheet "${key}".`);
    return sheet;
  }
  get activeSheet(): Sheet {
    return this.sheetById(this.port.workbook.getActiveSheet().getSheetId())!;
  }
  activate(sheet: Sheet): void {
    if (this.activeSheet !== sheet) this.port.ours(() => this.port.workbook.setActiveSheet(sheet.id));
    this.noteActive();
  }
  /** Tells listeners once when another sheet is in front, whoever brought it there. */
  noteActive(): void {
    const [before, now] = [this.#active, this.activeSheet.id];
    if (before === now) return;
    this.#active = now;
    this.events.emit({ kind: 'deactivated', sheet: before });
    this.events.emit({ kind: 'activated', sheet: now });
  }

  /** A new sheet at the end, or before `index`. Without a name: the first free "Sheet7". */
  addSheet(name?: string, index?: number, content: Record<string, unknown> = {}): Sheet {
    const title = name ?? this.freeSheetName();
    this.requireFreeName(title);
    // Excel's ids look like this; they are no names, so that a key is never ambiguous.
    let id: string;
    do id = `{00000000-0001-0000-0000-${String(this.#nextSheet++).padStart(12, '0')}}`;
    while (this.port.sheetIds().includes(id));
    const active = this.port.workbook.getActiveSheet().getSheetId();
    this.port.ours(() => {
      const at = index ?? this.port.sheetIds().length;
      this.port.workbook.insertSheet(title, { index: at, sheet: { ...content, id } });
      this.port.workbook.setActiveSheet(active);
    });
    const sheet = this.sheetById(id)!;
    this.events.emit({ kind: 'added', sheet: id });
    return sheet;
  }
  requireFreeName(name: string, self?: Sheet): void {
    if (!isSheetName(name)) throw new ApiError('InvalidArgument', `"${name}" cannot be a sheet name.`);
    const holder = this.sheetByName(name);
    if (holder && holder !== self)
      throw new ApiError('ItemAlreadyExists', `A sheet is called "${holder.name}" already.`);
  }
  freeSheetName(): string {
    for (let n = 1; ; n++) if (!this.sheetByName(`Sheet${n}`)) return `Sheet${n}`;
  }
  renameSheet(sheet: Sheet, name: string): void {
    this.requireFreeName(name, sheet);
    const before = sheet.name;
    if (before === name) return;
    this.port.ours(() => sheet.shown.setName(name));
    this.formulas.refresh();
    this.events.emit({ kind: 'renamed', sheet: sheet.id, before, after: name });
  }
  /** Another sheet to look at when this one goes: Excel keeps at least one visible sheet. */
  #requireOtherVisible(sheet: Sheet): Sheet {
    const other = this.sheets().find((each) => each !== sheet && each.visibility === 'Visible');
    if (!other)
      throw new ApiError('InvalidOperation', 'A workbook must contain at least one visible worksheet.');
    return other;
  }
  deleteSheet(sheet: Sheet): void {
    const other = this.#requireOtherVisible(sheet);
    if (this.activeSheet === sheet) this.activate(other);
    this.port.ours(() => this.port.workbook.deleteSheet(sheet.id));
    this.sheetGone(sheet.id);
  }
  sheetGone(id: string): void {
    const sheet = this.#sheets.get(id);
    this.#sheets.delete(id);
    const names = this.formulas.dropSheet(id);
    if (sheet) this.#gone.set(id, { sheet, names });
    this.events.emit({ kind: 'deleted', sheet: id });
  }
  /** A person made a sheet, or brought a deleted one back: then with all that was kept beside its cells. */
  sheetCame(id: string): void {
    const gone = this.#gone.get(id);
    if (gone) {
      this.#gone.delete(id);
      this.#sheets.set(id, gone.sheet);
      this.formulas.restoreNames(gone.names);
      this.looksChanged(gone.sheet);
    }
    this.events.emit({ kind: 'added', sheet: id });
  }

  setVisibility(sheet: Sheet, visibility: Sheet['visibility']): void {
    if (!['Visible', 'Hidden', 'VeryHidden'].includes(visibility))
      throw new ApiError(
        'InvalidArgument',
        `A sheet's visibility is Visible, Hidden or VeryHidden, not "${visibility}".`,
      );
    if (visibility !== 'Visible') {
      const other = this.#requireOtherVisible(sheet);
      if (this.activeSheet === sheet) this.activate(other);
    }
    sheet.visibility = visibility;
    this.port.ours(() => (visibility === 'Visible' ? sheet.shown.showSheet() : sheet.shown.hideSheet()));
  }
  setProtection(sheet: Sheet, protection: Protection | undefined): void {
    sheet.protection = protection;
    this.events.emit({ kind: 'protection', sheet: sheet.id, isProtected: protection !== undefined });
  }
  select(sheet: Sheet, rect: Rect): void {
    this.activate(sheet);
    const { row, column, rows, columns } = withMerges(sheet, sheet.clip(rect));
    this.port.reach(sheet.id, row + rows - 1, column + columns - 1);
    this.port.ours(() => this.port.workbook.setActiveRange(sheet.shown.getRange(row, column, rows, columns)));
  }
  /** Computes everything again, as F9 with all modifiers does. */
  recalculate(): void {
    this.functions.later.forgetAll();
    this.calculation.expect();
    this.port.ours(() => this.api.getFormula().executeCalculation());
  }
  /** Computes cells and what depends on them again. */
  recalculateCells(places: readonly Place[]): void {
    const unitId = this.port.workbook.getId();
    const there = new Set(this.port.sheetIds());
    const dirtyRanges = places
      .filter(({ sheet }) => there.has(sheet))
      .map(({ sheet, row, column }) => ({
        unitId,
        sheetId: sheet,
        range: { startRow: row, endRow: row, startColumn: column, endColumn: column },
      }));
    if (dirtyRanges.length === 0) return;
    this.port.ours(() => this.api.syncExecuteCommand(CALCULATE, { ...NOTHING_DIRTY, dirtyRanges }));
  }
  /** Resolves when everything written so far is calculated and every function has answered that will. */
  async settled(): Promise<void> {
    while (this.calculation.isPending || this.functions.later.isPending) {
      await this.calculation.settled();
      if (this.functions.later.isPending && !(await this.functions.later.answered())) return;
    }
  }
  /**
   * The value of a formula in the engine's own words as if it stood in a cell. One at a time: the engine gives
   * the first answer to everybody who waits for one.
   */
  evaluate({ id }: { readonly id: string }, row: number, column: number, formula: string): Promise<unknown> {
    const unit = this.port.workbook.getId();
    const turn = this.#evaluation.then(async () => {
      const asked = { [unit]: { [id]: { [row]: { [column]: [formula] } } } };
      const results = await this.api.getFormula().executeFormulas(asked);
      const found = results[unit]?.[id]?.[row]?.[column]?.[0];
      if (!found) throw new Error(`The spreadsheet engine gave no answer to ${formula}.`);
      return found.value as unknown;
    });
    // The next one is asked whatever came of this one, which its own asker hears.
    this.#evaluation = turn.catch(() => undefined);
    return turn;
  }
  /** Shows validations and conditional formats of a sheet to a person, where the engine's interface can. */
  looksChanged(sheet: Sheet): void {
    this.#mirror.schedule(sheet);
  }
  /** Looks are written in one go once everybody who holds them back has let go. */
  holdLooks(): () => void {
    this.#holding++;
    return () => {
      this.#holding--;
      if (this.#holding === 0) this.writeLooks();
    };
  }
  looksWait(sheet: Looking): void {
    if (this.#holding === 0) sheet.writeLooks();
    else this.#waiting.add(sheet);
  }
  writeLooks(): void {
    for (const sheet of this.#waiting) if (this.port.sheetIds().includes(sheet.id)) sheet.writeLooks();
    this.#waiting.clear();
  }
  nextId(): string {
    return `{${String(this.#nextId++).padStart(8, '0')}-0000-0000-0000-000000000000}`;
  }

  /** Why a custom function put an error into a cell, in its own words. */
  errorMessage(sheet: string, row: number, column: number): string | undefined {
    return this.functions.messages.get(sheet, row, column);
  }
  /** The cell is entered anew. */
  forgetMessage(sheet: string, row: number, column: number): void {
    this.functions.later.forget({ sheet, row, column });
    this.functions.messages.set(sheet, row, column, undefined);
  }
}

const CALCULATE = 'formula.mutation.set-trigger-formula-calculation-start';
const NOTHING_DIRTY = {
  forceCalculation: false,
  dirtyNameMap: {},
  dirtyDefinedNameMap: {},
  dirtySuperTableMap: {},
  dirtyUnitFeatureMap: {},
  dirtyUnitOtherFormulaMap: {},
  clearDependencyTreeCache: {},
};

/** A part of a merged cell is all of it, as Excel selects. */
function withMerges(sheet: Sheet, rect: Rect): Rect {
  const touched = sheet.merges().find((merge) => {
    const shared = intersection(merge, rect);
    return shared && (shared.rows !== merge.rows || shared.columns !== merge.columns);
  });
  return touched ? withMerges(sheet, around([...corners(rect), ...corners(touched)])!) : rect;
}
