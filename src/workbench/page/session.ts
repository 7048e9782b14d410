import type { FUniver } from '@univerjs/core/facade';
import { NAMESPACE } from '../../functions/table';
import { Bridge } from '../bridge/bridge';
import { emptyWorkbook } from '../empty';
import { Engine } from '../engine/engine';
import type { FunctionsJson } from '../engine/metadata';
import { watchEditing } from './editing';
import { startGrid } from './grid';
import type { Link } from './link';

/** The folder of the pane's files on the workbench's server. */
const PANE = './pane/';

type Implementation = (...args: unknown[]) => unknown;

/** One workbook in the page: the spreadsheet, the host's side of Office.js, and the pane joined to them. */
export class Session {
  readonly api: FUniver;
  readonly engine: Engine;
  readonly #functions = new Map<string, Implementation>();
  #isRegistrationDue = false;

  constructor(
    container: HTMLElement,
    readonly metadata: FunctionsJson,
  ) {
    this.api = startGrid(container);
    this.api.createWorkbook(emptyWorkbook());
    this.engine = new Engine(this.api);
    watchEditing(this.api, this.engine);
  }

  /** What the pane's window finds; see `office/`. */
  link(ready: Promise<void>): Link {
    const { native } = new Bridge(this.engine);
    return {
      ready,
      settings: new Map(),
      partition: 'workbench',
      connect: (receive) => {
        native.onMessageFromHost = receive;
        return (request) => native.sendMessageToHost(request);
      },
      associate: (id, run) => {
        this.#functions.set(id, run);
        this.#registerSoon();
      },
    };
  }

  /** The pane names its functions one by one; the engine gets them together. */
  #registerSoon(): void {
    if (this.#isRegistrationDue) return;
    this.#isRegistrationDue = true;
    queueMicrotask(() => {
      this.#isRegistrationDue = false;
      this.engine.functions.register(this.metadata, this.#functions, NAMESPACE);
    });
  }
}

/** The list of custom functions, from the file that Excel reads. */
export async function fetchMetadata(): Promise<FunctionsJson> {
  const answer = await fetch(`${PANE}functions.json`);
  if (!answer.ok) throw new Error(`The workbench lacks its functions.json (${answer.status})`);
  return (await answer.json()) as FunctionsJson;
}

/** Loads the pane into its frame. */
export function openPane(frame: HTMLIFrameElement): Promise<void> {
  return new Promise((resolve) => {
    frame.addEventListener('load', () => resolve(), { once: true });
    frame.src = `${PANE}taskpane.html`;
  });
}
