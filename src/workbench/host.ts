import type { FUniver } from '@univerjs/core/facade';
import type { Book } from '../sheets/book';
import { fromBook } from './book/read';
import { toBook } from './book/write';
import { Bridge, type NativeBridge } from './bridge/bridge';
import { Engine } from './engine/engine';
import type { EngineEvent } from './engine/events';
import type { Implementation } from './engine/functions';
import { guardUserEdits } from './engine/guard';
import { type Hint, hintOf } from './engine/hint';
import type { FunctionsJson } from './engine/metadata';
import { followPeople } from './engine/people';
import { requireAddress } from './engine/reference';
import { followResults } from './engine/results';
import { type Typed, typeInto } from './engine/typing';

/** The embedded host: a workbook, and Excel's side of the client library's bridge to it. */
export interface Workbench {
  readonly engine: Engine;
  /** For `OfficeExtension.HostBridge.init(workbench.bridge)`. */
  readonly bridge: NativeBridge;
  /** One message of the client → the answer to it. */
  bridgeMessage(text: string): Promise<string | undefined>;
  /** Resolves when the functions can be used in formulas. */
  registerFunctions(
    metadata: FunctionsJson,
    implementations: ReadonlyMap<string, Implementation>,
    namespace?: string,
  ): Promise<void>;
  /** The whole workbook as plain data, when everything is calculated. */
  toBook(): Promise<Book>;
  /** Puts a book in the place of the workbook. Resolves with what could not be taken over, in words. */
  fromBook(book: Book): Promise<readonly string[]>;
  /** Types into a cell as a person does; `address` without a sheet name. */
  typeInto(sheet: string, address: string, text: string): Promise<Typed>;
  /** What Excel shows beside a cell when it is entered: the validation's prompt, or the cell's note. */
  hint(sheet: string, address: string): Hint | undefined;
  /** Refuses a person's edits where Excel would, and says why. Returns how to stop. */
  guardUserEdits(onRefused: (message: string) => void): () => void;
  /** Everything that happens in the workbook: edits, calculations, sheets, selection. Returns how to stop. */
  onStateChanged(listener: (event: EngineEvent) => void): () => void;
}

/** Puts Excel's rules and protocol on top of an engine that has a workbook open (`empty.ts` has one). */
export function createWorkbench(api: FUniver): Workbench {
  const engine = new Engine(api);
  followPeople(engine);
  followResults(engine);
  const bridge = new Bridge(engine);
  return {
    engine,
    bridge: bridge.native,
    bridgeMessage: (text) => bridge.message(text),
    async registerFunctions(metadata, implementations, namespace = 'LIGHT') {
      engine.functions.register(metadata, implementations, namespace);
      await engine.calculation.settled();
    },
    async toBook() {
      // A file holds results: those of what is typed meanwhile too.
      await engine.settled();
      return toBook(engine);
    },
    fromBook: (book) => fromBook(engine, book),
    typeInto: (sheet, address, text) => typeInto(engine.requireSheet(sheet), address, text),
    hint: (sheet, address) => hintOf(engine.requireSheet(sheet), requireAddress(address)),
    guardUserEdits: (onRefused) => guardUserEdits(engine, onRefused),
    onStateChanged: (listener) => engine.events.listen(listener),
  };
}
export { showWrittenFormulas } from './engine/editor';
