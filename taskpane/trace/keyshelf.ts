import type { PublicKey } from '../../src/audit/seal/sign';
import type { Preferences } from '../preferences';

/** A key pair of the person who works here. The private key is an object of the browser that cannot be read out. */
export interface HeldKey {
  readonly privateKey: CryptoKey;
  readonly publicKey: PublicKey;
  /** ISO time, UTC. */
  readonly since: string;
}

/** Where the key is held from one time to the next. */
export interface KeyShelf {
  /** False where the browser keeps nothing: the key then lasts as long as the pane. */
  readonly isLasting: boolean;
  get(): Promise<HeldKey | undefined>;
  put(key: HeldKey): Promise<void>;
  remove(): Promise<void>;
  /** The day since when a key was held that is gone though nobody removed it: browsers drop what pages keep. */
  dropped(): Promise<string | undefined>;
}

export function memoryKeyShelf(): KeyShelf {
  let held: HeldKey | undefined;
  return {
    isLasting: false,
    get: async () => held,
    put: async (key) => {
      held = key;
    },
    remove: async () => {
      held = undefined;
    },
    dropped: async () => undefined,
  };
}

const HELD = 'keyHeldSince';

/** A shelf of which another storage remembers that a key lies on it, so that its loss is noticed. */
export function rememberedShelf(shelf: KeyShelf, preferences: Preferences): KeyShelf {
  return {
    ...shelf,
    put: async (key) => {
      await shelf.put(key);
      await preferences.set(HELD, key.since.slice(0, 10));
    },
    remove: async () => {
      await shelf.remove();
      await preferences.set(HELD, '');
    },
    dropped: async () => {
      const since = await preferences.get(HELD);
      const isHeld = await shelf.get().then(
        (key) => key !== undefined,
        () => false,
      );
      return !isHeld && typeof since === 'string' && since !== '' ? since : undefined;
    },
  };
}

const STORE = 'keys';
const ONLY = 'mine';

/**
 * The browser's IndexedDB, which keeps a key as an object and not as its digits.
 * @param prefix part of the database's name, so that sites which share the browser's storage stay apart
 */
export async function browserKeyShelf(prefix: string): Promise<KeyShelf> {
  const database = await open(`${prefix}LightKeys`).catch(() => undefined);
  // Storage that is blocked, as in some windows that keep nothing: signing works all the same.
  if (!database) return memoryKeyShelf();
  const store = (mode: IDBTransactionMode) => database.transaction(STORE, mode).objectStore(STORE);
  // Asked only: a browser may say no, and drops what it keeps when room is short or the page was long unused.
  const lasting = () => navigator.storage?.persist?.().catch(() => false);
  return {
    isLasting: true,
    dropped: async () => undefined,
    get: async () => asKey(await done(store('readonly').get(ONLY))),
    put: async (key) => {
      await done(store('readwrite').put(key, ONLY));
      await lasting();
    },
    remove: async () => {
      await done(store('readwrite').delete(ONLY));
    },
  };
}

function open(name: string): Promise<IDBDatabase> {
  if (!globalThis.indexedDB) return Promise.reject(new Error('no IndexedDB'));
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => request.result.createObjectStore(STORE);
  return done(request);
}

function done<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('The browser’s storage refused.'));
  });
}

/** What an older or a newer program may have kept there is no key of ours. */
function asKey(kept: unknown): HeldKey | undefined {
  const { privateKey, publicKey, since } = (kept ?? {}) as Partial<HeldKey>;
  const isWhole =
    typeof CryptoKey !== 'undefined' &&
    privateKey instanceof CryptoKey &&
    typeof publicKey?.x === 'string' &&
    typeof publicKey.y === 'string' &&
    typeof since === 'string';
  return isWhole ? { privateKey, publicKey, since } : undefined;
}
