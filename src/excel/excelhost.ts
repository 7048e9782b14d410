import { rectOf } from '../sheets/address';
import type { Book, CellValue } from '../sheets/book';
import type { LogLine } from '../sheets/log';
import type { CellName } from '../sheets/names/all';
import type { Plan } from '../sheets/plan';
import { answering, REPLY, within } from './answer';
import { cellInput } from './cellinput';
import { readCells, writeCells } from './cells';
import { follow } from './following';
import {
  type BookRequest,
  type Built,
  type CellArea,
  type CellBlock,
  type CellPlace,
  type CellsByName,
  type CellWrite,
  type Course,
  type Host,
  HostError,
  type HostFacts,
  type NameEdits,
  type Restoration,
  type Selection,
  type SheetPlace,
  type SheetReading,
  type Survey,
  type WantedNames,
} from './host';
import { KeptSurvey } from './knownsheets';
import { editNames } from './names';
import { Places } from './places';
import { Opened } from './protect';
import { cut, identityOf, localAddress, notOurs, ownNames } from './read';
import { toHostError } from './trouble';

/** The spreadsheet program, through Office.js. Made once the library is ready. */
export async function createExcelHost(reply = REPLY): Promise<Host> {
  await Office.onReady();
  const run = runner(reply);
  return new ExcelHost(await loadFacts(run), run);
}

/** What the workbench calls itself; no Excel has this version. */
const WORKBENCH_VERSION = '0.0.0.0';

async function loadFacts(run: Run): Promise<HostFacts> {
  const { platform, host, version } = Office.context.diagnostics;
  const isWorkbench = String(host) !== 'Excel' || version === WORKBENCH_VERSION;
  const facts = { platform: String(platform), isWorkbench, workbook: Office.context.document.url ?? '' };
  if (!Office.context.requirements.isSetSupported('ExcelApi', '1.11')) {
    return { ...facts, decimalComma: false };
  }
  return run(async (context) => {
    const { application } = context.workbook;
    application.load('decimalSeparator');
    await context.sync();
    return { ...facts, decimalComma: application.decimalSeparator === ',' };
  });
}

/** Runs a batch and rejects with words a person can use. A range of it lasts until the next `sync`. */
type Run = <T>(batch: (context: Excel.RequestContext) => Promise<T>) => Promise<T>;

/** @param reply how long an answer may take, in ms */
function runner(reply: number): Run {
  return async (batch) => {
    try {
      return await batch(answering(await within(reply, waitingContext()), reply));
    } catch (reason) {
      throw toHostError(reason);
    }
  };
}

/** Ends the batch that makes a context, whose own last `sync` would be a round trip for nothing. */
const MADE = new Error('The context is made.');

/**
 * A context that waits while a cell is being edited. What is asked for inside `Excel.run` the program tracks, range
 * by range, and is told to release: half of what building a sheet sent. So it makes the context and no more.
 */
async function waitingContext(): Promise<Excel.RequestContext> {
  let context: Excel.RequestContext | undefined;
  await Excel.run({ delayForCellEdit: true }, async (made) => {
    context = made;
    throw MADE;
  }).catch((reason) => {
    if (reason !== MADE) throw reason;
  });
  return context!;
}

class ExcelHost implements Host {
  readonly #places = new Places();
  readonly #survey = new KeptSurvey();
  /** Whether lines were sent of which nobody answered that they stand. */
  #isLogDoubtful = false;

  constructor(
    private readonly known: HostFacts,
    private readonly run: Run,
  ) {}

  /** Work that opens sheets: broken off, it leaves none of them open. */
  private async closing<T>(work: (context: Excel.RequestContext, opened: Opened) => Promise<T>): Promise<T> {
    const opened = new Opened();
    try {
      return await this.run((context) => work(context, opened));
    } catch (reason) {
      // What cannot be said now is found by the next check: a sheet that is not protected.
      await this.run((context) => opened.close(context)).catch(() => undefined);
      throw reason;
    }
  }

  facts(): HostFacts {
    return this.known;
  }

  private get tellsSpills(): boolean {
    return this.known.isWorkbench || Office.context.requirements.isSetSupported('ExcelApi', '1.12');
  }

  async build(plan: Plan, course: Course = {}): Promise<Built> {
    try {
      return await this.buildOnce(plan, course);
    } catch (reason) {
      // Someone else took the name between our look and our write: look again, once.
      if (reason instanceof HostError && reason.trouble === 'taken') return this.buildOnce(plan, course);
      throw reason;
    }
  }

  private async buildOnce(plan: Plan, course: Course): Promise<Built> {
    const { buildSheet } = await import('./building');
    // Charts are in every version the manifest lets in; the workbench's spreadsheet has none.
    return buildSheet(this.run, plan, { notes: hasNotes(), charts: !this.known.isWorkbench }, course);
  }

  survey(): Promise<Survey> {
    return this.run((context) => this.#survey.ask(context));
  }

  read(sheet: string): Promise<SheetReading> {
    return this.#readWhole(sheet).catch((reason) => {
      // Another sheet has the name by now, or none.
      this.#survey.forget();
      throw reason;
    });
  }

  async #readWhole(sheet: string): Promise<SheetReading> {
    // The table of names is not wanted before the first paint.
    const { besidesOf } = await import('../sheets/names/beside');
    return this.run(async (context) => {
      const worksheet = context.workbook.worksheets.getItem(sheet);
      worksheet.names.load('items/name,items/formula,items/scope');
      const used = worksheet.getUsedRange();
      used.load('address,values,text,valueTypes');
      await context.sync();
      const names = ownNames(worksheet.names).map(({ name, formula }) => ({
        name,
        formula: String(formula),
      }));
      const identity = identityOf(names);
      if (!identity) throw notOurs(sheet);
      const addresses = new Map(
        names.flatMap(({ name, formula }) => {
          const at = localAddress(formula);
          return at ? [[name, at] as const] : [];
        }),
      );
      const values = [...addresses, ...besidesOf(identity, addresses)].map(([name, at]) => [
        name,
        cut(used, at),
      ]);
      return { sheet, ...identity, values: Object.fromEntries(values) };
    });
  }

  async readSome(wanted: WantedNames): Promise<readonly SheetReading[]> {
    const { readSome } = await import('./readsome');
    return this.run((context) => readSome(context, wanted));
  }

  async rewrite(sheet: string, plan: Plan): Promise<void> {
    const { rewrite } = await import('./rewrite');
    await this.closing((context, opened) => rewrite(context, sheet, plan, hasNotes(), opened));
    this.#survey.forget();
  }

  write(sheet: string, name: CellName, values: readonly (readonly CellValue[])[]): Promise<void> {
    return this.run(async (context) => {
      const named = () => context.workbook.worksheets.getItem(sheet).names.getItem(name).getRange();
      const range = named();
      range.load('rowCount,columnCount,address');
      await context.sync();
      const [rows, columns] = [values.length, values[0]?.length ?? 0];
      if (rows !== range.rowCount || columns !== range.columnCount) {
        throw new HostError(
          'refused',
          `${name} on "${sheet}" takes ${range.rowCount} × ${range.columnCount} values; ${rows} × ${columns} came.`,
          'Nothing was written. Choose the field that fits.',
        );
      }
      named().values = values.map((row) => row.map(cellInput));
      await context.sync();
    });
  }

  writeCells(place: SheetPlace | string, cells: readonly CellWrite[]): Promise<readonly CellValue[]> {
    return this.run((context) => this.#places.on(context, place, (sheet) => writeCells(sheet, cells)));
  }

  async readNamed(sheet: string, names: readonly CellName[]): Promise<CellsByName> {
    const { readNamed } = await import('./readnamed');
    return this.run((context) => readNamed(context, sheet, names));
  }

  async writeBlocks(sheet: string, blocks: readonly CellBlock[], course: Course = {}): Promise<void> {
    const { writeBlocks } = await import('./blocks');
    return this.run((context) => writeBlocks(context, sheet, blocks, course));
  }

  readCells(place: SheetPlace | string, cells: readonly CellPlace[]): Promise<readonly CellValue[]> {
    return this.run((context) => this.#places.on(context, place, (sheet) => readCells(sheet, cells)));
  }

  select(sheet: string, target: string): Promise<void> {
    return this.run(async (context) => {
      const worksheet = context.workbook.worksheets.getItem(sheet);
      worksheet.activate();
      const range = isAddress(target)
        ? worksheet.getRange(target)
        : worksheet.names.getItem(target).getRange();
      range.select();
      await context.sync();
    });
  }

  async refresh(sheet: string): Promise<{ formulas: number }> {
    const { refresh } = await import('./refresh');
    return this.closing((context, opened) => refresh(context, sheet, this.tellsSpills, opened));
  }

  async enterAgain(sheet: string, names: readonly CellName[]): Promise<{ formulas: number }> {
    const { enterAgain } = await import('./blocks');
    return this.closing((context, opened) => enterAgain(context, sheet, names, opened));
  }

  async settled(limit: number): Promise<void> {
    const { settled } = await import('./settled');
    return this.run((context) => settled(context, limit));
  }

  async book(request: BookRequest = {}): Promise<Book> {
    const { readBook } = await import('./book');
    return this.run((context) => readBook(context, request, this.tellsSpills));
  }

  selection(): Promise<Selection> {
    return this.run(async (context) => {
      const cell = context.workbook.getActiveCell();
      cell.load('address');
      cell.worksheet.load('name');
      await context.sync();
      return { sheet: cell.worksheet.name, cell: cell.address.slice(cell.address.lastIndexOf('!') + 1) };
    });
  }

  async editNames(edits: readonly NameEdits[]): Promise<void> {
    await this.closing((context, opened) => editNames(context, edits, opened));
    this.#survey.forget();
  }

  async restore(sheet: string, restoration: Restoration): Promise<void> {
    const { restore } = await import('./restore');
    await this.closing((context, opened) => restore(context, sheet, restoration, opened));
    this.#survey.forget();
  }

  async appendLog(lines: readonly LogLine[], newId: string): Promise<void> {
    if (lines.length === 0) return;
    // The log and its layout are no part of the first paint.
    const { appendLog } = await import('./log');
    const append = async () => {
      const isDoubtful = this.#isLogDoubtful;
      this.#isLogDoubtful = true;
      await this.closing((context, opened) => appendLog(context, lines, newId, opened, isDoubtful));
      this.#isLogDoubtful = false;
    };
    try {
      await append();
    } catch (reason) {
      // Somebody else protected the log or took its name between our look and our write: look again, once.
      const isRace =
        reason instanceof HostError && (reason.trouble === 'taken' || reason.trouble === 'protected');
      if (!isRace) throw reason;
      await append();
    }
  }

  async file(): Promise<Uint8Array> {
    const { fileBytes } = await import('./file');
    return fileBytes();
  }

  async openWorkbook(bytes: Uint8Array): Promise<void> {
    const { openBytes } = await import('./file');
    await openBytes(bytes).catch((reason) => {
      throw toHostError(reason);
    });
  }

  async opensPane(): Promise<boolean | undefined | 'never'> {
    const { canOpenPane, opensPane } = await import('./autoopen');
    return canOpenPane() ? opensPane() : 'never';
  }

  async setOpensPane(opens: boolean): Promise<void> {
    const { setOpensPane } = await import('./autoopen');
    await setOpensPane(opens);
  }

  async precedents(sheet: string, cell: string): Promise<readonly CellArea[] | undefined> {
    const { precedents } = await import('./precedents');
    return this.run((context) => precedents(context, sheet, cell));
  }

  async watch(changed: (sheets?: readonly string[]) => void): Promise<() => void> {
    const { handlers, end } = await this.run((context) => follow(context, this.#survey, changed));
    return () => {
      end();
      for (const handler of handlers) {
        // The handler belongs to the context it was added in; a host that is already gone has none to remove.
        Excel.run(handler.context, async (context) => {
          handler.remove();
          await context.sync();
        }).catch((reason) => console.warn('An event handler stayed registered', toHostError(reason).detail));
      }
    };
  }
}

const hasNotes = () => Office.context.requirements.isSetSupported('ExcelApi', '1.18');

function isAddress(target: string): boolean {
  try {
    rectOf(target);
    return true;
  } catch {
    return false;
  }
}
