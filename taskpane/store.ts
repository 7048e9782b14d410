import { computed, signal } from '@preact/signals';
import type { Host } from '../src/excel/host';
import { captureOf } from './capture/fetched';
import type { CaptureOptions } from './capture/service';
import { cautionsOf } from './cautions/state';
import { openingHost } from './opening/host';
import { memoryPreferences, type Preferences } from './preferences';
import { isoDay } from './setup/start';
import type { Simulator } from './simulation/simulator';
import { createAuthor } from './store/author';
import { createFront } from './store/front';
import { createLog } from './store/log';
import { loggedHost } from './store/loggedhost';
import { followOverview } from './store/overview';
import { tellingHost } from './store/tellinghost';
import { createTroubles } from './store/trouble';
import type { Store } from './store/type';
import { createWorkbook } from './store/workbook';
import type { KeyShelf } from './trace/keyshelf';

export type { Store } from './store/type';

export interface StoreOptions {
  readonly preferences?: Preferences;
  readonly today?: string;
  /** Unique lower-case letters and digits. */
  readonly makeId?: () => string;
  /** Where the trials of a simulation run; a worker unless given. */
  readonly simulator?: () => Promise<Simulator>;
  /** Window and storage of guided capture; without them it runs in the pane and keeps nothing. */
  readonly capture?: CaptureOptions;
  /** Where a key for signing is held; without it a key lasts as long as the pane. */
  readonly keyShelf?: () => Promise<KeyShelf>;
}

/** What a fresh pane shows. */
const FIRST_PAGE = 'home';

export function createStore(given: Host, options: StoreOptions = {}): Store {
  const { preferences = memoryPreferences(), today = isoDay(new Date()), makeId = randomId } = options;
  const troubles = createTroubles();
  const program = openingHost(tellingHost(given, troubles));
  const author = createAuthor(preferences);
  const log = createLog(program, author, preferences, makeId);
  const host = loggedHost(program, author, log);
  const workbook = createWorkbook(host);
  const page = signal(FIRST_PAGE);
  const front = createFront(workbook, page);
  const refreshed = signal('');
  const ends = [front.stop, workbook.stop];
  let before = FIRST_PAGE;
  // What a run's cells mean is not part of the first paint: it comes while the workbook is looked at.
  const viewOf = signal<typeof import('./run/view').viewOf | undefined>(undefined);
  const store: Store = {
    facts: host.facts(),
    host,
    program,
    today,
    makeId,
    page,
    troubles,
    workbook,
    front,
    preferences,
    author,
    log,
    keyShelf: options.keyShelf ?? (async () => (await import('./trace/keyshelf')).memoryKeyShelf()),
    simulator: options.simulator ?? (async () => (await import('./simulation/simulator')).workerSimulator()),
    captureOptions: options.capture,
    run: computed(() => workbook.reading.value && viewOf.value?.(workbook.reading.value)),
    refreshed,
    open: (id) => {
      if (id !== page.peek()) before = page.peek();
      page.value = id;
    },
    back: () => {
      page.value = before;
    },
    goTo: async (cell) => {
      const sheet = workbook.reading.value?.sheet;
      if (sheet) await troubles.attempt('Going to the cell', () => host.select(sheet, cell));
    },
    refresh: async () => {
      const sheet = workbook.reading.value?.sheet;
      if (!sheet) return;
      refreshed.value = '';
      const attempt = await troubles.attempt('Refreshing the results', () => host.refresh(sheet));
      if (attempt.ok) {
        refreshed.value = `${attempt.value.formulas} formulas entered again.`;
        void log.note('refreshed', sheet, refreshed.value);
      }
      await workbook.look();
    },
    onStop: (end) => {
      ends.push(end);
    },
    start: async () => {
      ends.push(followOverview(store));
      await Promise.all([
        import('./run/view').then((module) => {
          viewOf.value = module.viewOf;
        }),
        workbook.start(),
        captureOf(store).start(),
        author.recall(),
        log.recall(),
        cautionsOf(store).recall(),
        // The form is not part of the first paint; what was kept only fills in.
        import('./run/newrun').then(({ newRunOf }) => newRunOf(store).recall()),
      ]);
    },
    stop: () => {
      for (const end of ends) end();
    },
  };
  return store;
}

/** Eight letters and digits: 36⁸ sheets may pass before two of one workbook are likely to be alike. */
function randomId(): string {
  const letters = 'abcdefghijklmnopqrstuvwxyz0123456789';
  return [...crypto.getRandomValues(new Uint8Array(8))]
    .map((byte) => letters[byte % letters.length])
    .join('');
}
