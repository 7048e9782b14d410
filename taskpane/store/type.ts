import type { ReadonlySignal } from '@preact/signals';
import type { Host, HostFacts } from '../../src/excel/host';
import type { CaptureOptions } from '../capture/service';
import type { Preferences } from '../preferences';
import type { RunView } from '../run/view';
import type { Simulator } from '../simulation/simulator';
import type { KeyShelf } from '../trace/keyshelf';
import type { Author } from './author';
import type { Front } from './front';
import type { Log } from './log';
import type { Troubles } from './trouble';
import type { Workbook } from './workbook';

/** Everything the pane knows and can do. Components read signals and call these; they never wait themselves. */
export interface Store {
  readonly facts: HostFacts;
  /** For steps that are fetched when first opened and keep their own state. */
  readonly host: Host;
  /** The program itself, for many sheets that get one line in the log together. */
  readonly program: Host;
  readonly today: string;
  readonly makeId: () => string;
  readonly page: ReadonlySignal<string>;
  readonly troubles: Troubles;
  readonly workbook: Workbook;
  readonly front: Front;
  readonly preferences: Preferences;
  readonly author: Author;
  readonly log: Log;
  /** Where a key for signing is held; asked for when first needed. */
  readonly keyShelf: () => Promise<KeyShelf>;
  /** Where the trials of a simulation run. */
  readonly simulator: () => Promise<Simulator>;
  /** Window and storage of guided capture. */
  readonly captureOptions: CaptureOptions | undefined;
  readonly run: ReadonlySignal<RunView | undefined>;
  /** What the last refresh did. */
  readonly refreshed: ReadonlySignal<string>;
  open(page: string): void;
  /** Opens the page that was open before. */
  back(): void;
  /** Puts the selection on a cell of the run that is shown. */
  goTo(cell: string): Promise<void>;
  /** Enters the formulas of the run again. */
  refresh(): Promise<void>;
  /** What is to end with the pane. */
  onStop(end: () => void): void;
  start(): Promise<void>;
  stop(): void;
}
