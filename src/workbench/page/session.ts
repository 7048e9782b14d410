import type { FUniver } from '@univerjs/core/facade';
import type { Book } from '../../sheets/book';
import { writeXlsx } from '../../xlsx';
import { emptyWorkbook } from '../empty';
import type { Implementation } from '../engine/functions';
import type { FunctionsJson } from '../engine/metadata';
import { createWorkbench, showWrittenFormulas, type Workbench } from '../host';
import { watchEditing } from './editing';
import { startGrid } from './grid';
import { leaveHeightsOfGone } from './heights';
import type { Link } from './link';
import { showWrittenNames } from './namebox';
import { notice } from './notice';
import { followSelection } from './selection';

/** One workbook in the page: the spreadsheet, and Excel's side of Office.js on top of it. */
export class Session {
  readonly api: FUniver;
  readonly workbench: Workbench;
  readonly #functions = new Map<string, Implementation>();
  #registration: Promise<void> | undefined;
  /** False from the first change after saving or opening. */
  isSaved = true;

  constructor(
    container: HTMLElement,
    readonly metadata: FunctionsJson,
  ) {
    const grid = startGrid(container);
    this.api = grid.api;
    this.api.createWorkbook(emptyWorkbook());
    this.workbench = createWorkbench(this.api);
    const { engine } = this.workbench;
    watchEditing(this.api, engine);
    leaveHeightsOfGone(this.api);
    showWrittenFormulas(engine, grid.editor, grid.beforeCellEdit);
    showWrittenNames(engine, grid.names);
    followSelection(this.workbench);
    this.workbench.guardUserEdits(notice);
    this.workbench.onStateChanged(({ kind }) => {
      if (kind === 'changed' || kind === 'renamed' || kind === 'deleted') this.isSaved = false;
    });
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
    // A sheet that has never been shown has no selection of its own.
    this.api.getActiveWorkbook()!.getActiveSheet().getRange('A1').activate();
    this.isSaved = true;
    return problems;
  }

  /** What the pane's window finds, see `office/`. */
  link(): Link {
    const { bridge, engine } = this.workbench;
    return {
      settings: engine.settings,
      partition: 'workbench',
      file: async () => writeXlsx(await this.workbench.toBook()),
      connect: (receive) => {
        bridge.onMessageFromHost = receive;
        return (request) => bridge.sendMessageToHost(request);
      },
      associate: (id, run) => {
        this.#functions.set(id, run as Implementation);
        this.#registerSoon();
      },
    };
  }

  /** The pane names its functions one by one; the engine gets them together. */
  #registerSoon(): void {
    this.#registration ??= Promise.resolve().then(() => {
      this.#registration = undefined;
      return this.workbench.registerFunctions(this.metadata, this.#functions);
    });
  }
}
