import type { FUniver } from '@univerjs/core/facade';
import type { Book } from '../../sheets/book';
import { writeXlsx } from '../../xlsx';
import { REQUEST } from '../bridge/wire';
import { emptyWorkbook } from '../empty';
import type { Implementation } from '../engine/functions';
import type { FunctionsJson } from '../engine/metadata';
import { drawNothingUnseen } from '../engine/unseen';
import { createWorkbench, showWrittenFormulas, type Workbench } from '../host';
import { watchEditing } from './editing';
import { leaveFrame } from './focus';
import { type ShownGrid, startGrid } from './grid';
import { leaveHeightsOfGone } from './heights';
import type { Addin, AddinHost } from './host/addin';
import { type BatchRequest, richApi } from './host/batches';
import { Calls } from './host/calls';
import { appContext } from './host/context';
import { documentMethods } from './host/document';
import { METHOD } from './host/messages';
import { showWrittenNames } from './namebox';
import { notice } from './notice';
import { followSelection } from './selection';

/** One workbook in the page: the spreadsheet, and Excel's side of Office.js on top of it. */
export class Session {
  readonly api: FUniver;
  readonly workbench: Workbench;
  /** Answers the batches of every add-in. */
  readonly batches = { run: (request: BatchRequest) => this.#batch(request) };
  readonly #addins: Addin[] = [];
  /** Another one for every workbook. */
  #workbook: string = crypto.randomUUID();
  readonly #grid: ShownGrid;
  readonly #calls = new Calls((entries) => this.#addins[0]?.raise(entries));
  /** False from the first change after saving or opening. */
  isSaved = true;
  /** What its file is called. */
  fileName = 'workbook.xlsx';

  constructor(
    container: HTMLElement,
    readonly metadata: FunctionsJson,
  ) {
    const grid = startGrid(container);
    this.#grid = grid;
    this.api = grid.api;
    this.api.createWorkbook(emptyWorkbook());
    this.workbench = createWorkbench(this.api);
    const { engine } = this.workbench;
    watchEditing(this.api, engine);
    leaveHeightsOfGone(this.api);
    showWrittenFormulas(engine, grid.editor, grid.beforeCellEdit);
    drawNothingUnseen(grid.editor, grid.cellContent);
    showWrittenNames(engine, grid.names);
    followSelection(this.workbench);
    this.workbench.guardUserEdits((reason) => notice(reason, true));
    this.workbench.onStateChanged(({ kind }) => {
      if (kind === 'changed' || kind === 'renamed' || kind === 'deleted') this.isSaved = false;
    });
    this.workbench.bridge.onMessageFromHost = (text) => this.#tell(text);
    // Excel knows the functions from their list alone and calls them when the add-in is ready.
    void this.workbench.registerFunctions(metadata, this.#remote());
  }

  #remote(): ReadonlyMap<string, Implementation> {
    return new Map(
      this.metadata.functions.map(({ id }) => [
        id,
        (...args: unknown[]) => {
          const { address } = args.pop() as { readonly address: string };
          return this.#calls.call(id, args, address);
        },
      ]),
    );
  }

  /** Takes what is being typed into a cell, as Excel does before it saves or leaves a workbook. */
  async finishTyping(): Promise<void> {
    if (this.workbench.engine.isEditing) await this.api.getActiveWorkbook()!.endEditingAsync(true);
  }

  /**
   * Puts another workbook in the place of this one, with the selection at its beginning. Resolves with what
   * could not be taken over, in words.
   */
  async replace(book: Book): Promise<readonly string[]> {
    const problems = await this.workbench.fromBook(book);
    this.#workbook = crypto.randomUUID();
    // A sheet that has never been shown has no selection of its own.
    this.api.getActiveWorkbook()!.getActiveSheet().getRange('A1').activate();
    this.isSaved = true;
    return problems;
  }

  /** Excel's side of an add-in's frame; `features` are numbers of the client library, see `richApi`. */
  addinHost(features: readonly number[]): AddinHost {
    const { engine } = this.workbench;
    const file = async () => writeXlsx(await this.workbench.toBook());
    return {
      context: (id, addin) => {
        this.#calls.gone();
        return appContext(id, addin, this.#workbook, engine.settings);
      },
      methods: {
        ...documentMethods(engine.settings, file),
        [METHOD.richApi]: richApi((request) => this.batches.run(request), this.#calls, features),
      },
      told: leaveFrame,
    };
  }

  /** Tells events and calls to the add-in in a frame; calls go to the first of several. */
  join(addin: Addin): void {
    this.#addins.push(addin);
  }
  /** Forgets all frames. */
  part(): void {
    for (const addin of this.#addins.splice(0)) addin.leave();
    this.#calls.gone();
  }

  /** Leaves the page, which is free for another one. */
  end(): void {
    this.part();
    this.#grid.end();
  }

  async #batch({ url, method, flags, body }: BatchRequest): Promise<string> {
    const message = { id: 0, type: REQUEST, flags, message: { url, method, body } };
    const answer = await this.workbench.bridgeMessage(JSON.stringify(message));
    return (JSON.parse(answer!) as { message: { body: string } }).message.body;
  }
  #tell(text: string): void {
    const { message } = JSON.parse(text) as { message: { entries: readonly Notice[] } };
    const entries = message.entries.map(({ messageCategory, messageType, targetId, message }) => ({
      category: messageCategory,
      type: messageType,
      target: targetId,
      message,
    }));
    for (const addin of this.#addins) addin.raise(entries);
  }
}

/** An event as the bridge tells it. */
interface Notice {
  readonly messageCategory: number;
  readonly messageType: number;
  readonly targetId: string;
  readonly message: string;
}
