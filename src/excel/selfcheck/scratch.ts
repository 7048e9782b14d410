import { listenToCalls } from '../../functions/wrap';
import { addressOf, cellName } from '../../sheets/address';
import { freeName } from '../../sheets/realize';
import type { Host } from '../host';

/** What a cell came to. */
interface CellFound {
  readonly value: unknown;
  readonly type: string;
  readonly formula: unknown;
  /** Values it showed on the way that were not the last one. */
  readonly before: readonly unknown[];
}

/** What the pane brings: things a page can do that this room cannot. */
export interface Surroundings {
  readonly host: Host;
  /** A small workbook of ours as a file, base64: a sheet named `Filed` with one LIGHT formula in B2 and one INDEX in B3. */
  smallFile(): Promise<string>;
  /** Whether a script of ours runs beside the page. */
  worker(): Promise<boolean>;
}

/** The scratch sheet of a self-check, and all it is allowed to touch. */
export interface Scratch extends Surroundings {
  readonly sheet: string;
  /** Cells nobody has used yet, as an address; blocks never overlap. */
  block(rows: number, columns: number): string;
  /** One batch on the scratch sheet. */
  on<T>(work: (sheet: Excel.Worksheet, context: Excel.RequestContext) => Promise<T>): Promise<T>;
  /** Enters a formula or a value and waits until the cell is calculated. */
  enter(at: string, content: string | number | boolean): Promise<CellFound>;
  /** Waits until a cell no longer says that it is being calculated. */
  settled(at: string): Promise<CellFound>;
  /** Arguments of the calls of our functions that some work brings about, as they arrived. */
  calls(work: () => Promise<unknown>): Promise<readonly Call[]>;
  /** Another sheet that the check has made, to be taken away with the scratch sheet; its id. */
  own(id: string): void;
}
interface Call {
  readonly id: string;
  readonly raw: readonly unknown[];
}

const TITLE = 'Self-check';
/** A function call that takes longer than this has not come. */
const PATIENCE_MS = 30_000;
const LOOK_MS = 100;
/** What cells show while functions are under way (Office Add-ins documentation, troubleshooting custom functions). */
const PENDING = ['#BUSY!', '#GETTING_DATA', '#CONNECT!'];

/** Works on a scratch sheet that is taken away again whatever happens, with every sheet the work called its own. */
export async function withScratch<T>(
  surroundings: Surroundings,
  work: (scratch: Scratch) => Promise<T>,
): Promise<T> {
  const own = new Set<string>();
  const { sheet, id, front } = await add();
  own.add(id);
  try {
    return await work(scratchOn(surroundings, sheet, id, own));
  } finally {
    await remove(own, front);
  }
}

function add(): Promise<{ sheet: string; id: string; front: string }> {
  return Excel.run({ delayForCellEdit: true }, async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load('items/name');
    const active = worksheets.getActiveWorksheet();
    active.load('id');
    await context.sync();
    const sheet = worksheets.add(
      freeName(
        TITLE,
        worksheets.items.map(({ name }) => name),
      ),
    );
    sheet.load('id,name');
    await context.sync();
    return { sheet: sheet.name, id: sheet.id, front: active.id };
  });
}

/** Only sheets whose ids the check was told when it made them; the sheet that was in front comes back there. */
function remove(own: ReadonlySet<string>, front: string): Promise<void> {
  return Excel.run({ delayForCellEdit: true }, async (context) => {
    const { worksheets } = context.workbook;
    const found = [...own].map((id) => worksheets.getItemOrNullObject(id));
    const shown = worksheets.getItemOrNullObject(front);
    await context.sync();
    if (!shown.isNullObject) shown.activate();
    for (const sheet of found) if (!sheet.isNullObject) sheet.delete();
    await context.sync();
  });
}

function scratchOn(surroundings: Surroundings, sheet: string, id: string, own: Set<string>): Scratch {
  let row = 0;
  const on: Scratch['on'] = (work) =>
    Excel.run({ delayForCellEdit: true }, (context) =>
      work(context.workbook.worksheets.getItem(id), context),
    );
  const look = (at: string) =>
    on(async (worksheet, context) => {
      const range = worksheet.getRange(at).load('values,valueTypes,formulas');
      await context.sync();
      return {
        value: range.values[0]![0] as unknown,
        type: String(range.valueTypes[0]![0]),
        formula: range.formulas[0]![0] as unknown,
      };
    });
  const settled = async (at: string): Promise<CellFound> => {
    const before: unknown[] = [];
    const until = Date.now() + PATIENCE_MS;
    for (;;) {
      const found = await look(at);
      if (!PENDING.includes(String(found.value)) || Date.now() > until) return { ...found, before };
      if (before.at(-1) !== found.value) before.push(found.value);
      await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    }
  };
  return {
    ...surroundings,
    sheet,
    on,
    settled,
    block: (rows, columns) => {
      const address = addressOf({ row, column: 0, rows, columns });
      // A row is left between, so that nothing that spills meets the next block.
      row += rows + 1;
      return address;
    },
    enter: async (at, content) => {
      await on(async (worksheet, context) => {
        worksheet.getRange(at).formulas = [[content]];
        await context.sync();
      });
      return settled(at);
    },
    calls: async (work) => {
      const heard: Call[] = [];
      const end = listenToCalls((name, raw) => heard.push({ id: name, raw: [...raw] }));
      try {
        await work();
        return heard;
      } finally {
        end();
      }
    },
    own: (made) => own.add(made),
  };
}

/** The first cell of an address, and the one so many rows and columns from it. */
export function cellIn(block: string, row = 0, column = 0): string {
  const [, letters, number] = /^([A-Z]+)([0-9]+)/.exec(block)!;
  const first = [...letters!].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
  return cellName(Number(number) - 1 + row, first + column);
}
