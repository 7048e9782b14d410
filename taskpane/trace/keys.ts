import { type ReadonlySignal, signal } from '@preact/signals';
import { privateKeyOf, publicKeyFile, publicKeyOf } from '../../src/audit/seal/keyfile';
import { type PublicKey, type Signer, thumbprint } from '../../src/audit/seal/sign';
import { createSaving, type Saving } from '../saving/saving';
import { perStore } from '../store/perstore';
import type { HeldKey } from './keyshelf';

/** What is used of a file that somebody chose. */
type KeyFile = Pick<File, 'name' | 'size' | 'text'>;

/** The keys seals are signed and verified with. */
export interface Keys {
  /** Thumbprint of one's own key, if one is held. */
  readonly mine: ReadonlySignal<string | undefined>;
  /** Whether the key is still there after the pane was closed. */
  readonly isLasting: ReadonlySignal<boolean>;
  /** The day since when a key was held that the browser has dropped. */
  readonly dropped: ReadonlySignal<string | undefined>;
  readonly isSigning: ReadonlySignal<boolean>;
  /** Thumbprint of the key that seals must be signed with; undefined if any will do, or none. */
  readonly expected: ReadonlySignal<string | undefined>;
  /** What the last action did, or why it could not be done. */
  readonly said: ReadonlySignal<string>;
  readonly error: ReadonlySignal<string>;
  /** Whether new seals are signed. */
  sign(isSigning: boolean): void;
  /** The one file of the private key, and the public key's: saved when the person says so, not before. */
  readonly privateFile: Saving;
  readonly publicFile: Saving;
  /** Makes a key. With `backup` its private part is offered as a file once, for another computer. */
  make(backup: boolean): Promise<void>;
  /** Takes a private key from a file. */
  take(file: KeyFile): Promise<void>;
  /** Saves one's own public key, to give to those who verify. */
  savePublic(): void;
  forget(): Promise<void>;
  /** Whose signature is expected: that of a public key from a file, one's own, or nobody's in particular. */
  expectFile(file: KeyFile): Promise<void>;
  expectMine(): Promise<void>;
  expectAny(): void;
  /** What a seal is signed with now. */
  signer(): Signer<CryptoKey> | undefined;
  expectedKey(): PublicKey | undefined;
  start(): Promise<void>;
}

const CURVE = { name: 'ECDSA', namedCurve: 'P-256' } as const;
/** A key file has about 250 bytes. */
const FILE_MAX = 10_000;
const JSON_TYPE = 'application/jwk+json';

export const keysOf = perStore((store): Keys => {
  const { troubles, author } = store;
  const held = signal<HeldKey | undefined>(undefined);
  const mine = signal<string | undefined>(undefined);
  const isLasting = signal(true);
  const dropped = signal<string | undefined>(undefined);
  const isSigning = signal(true);
  const wanted = signal<PublicKey | undefined>(undefined);
  const expected = signal<string | undefined>(undefined);
  const said = signal('');
  const error = signal('');
  const shelf = store.keyShelf();
  const publicFile = createSaving();
  // It holds the private key's digits until the person has them, and no moment longer.
  const privateFile = createSaving((arrived) => {
    said.value = arrived === 'missing' ? '' : 'Whoever has the private key can sign as you.';
  });

  async function hold(key: HeldKey | undefined): Promise<void> {
    held.value = key;
    mine.value = key && (await thumbprint(crypto.subtle, key.publicKey));
    isSigning.value = true;
  }

  async function keep(privateKey: CryptoKey, publicKey: PublicKey): Promise<void> {
    const key = { privateKey, publicKey, since: author.moment().when };
    const open = await shelf;
    // A storage that takes the key and has none afterwards keeps nothing.
    isLasting.value = await open
      .put(key)
      .then(() => open.get())
      .then(
        (kept) => open.isLasting && kept !== undefined,
        () => false,
      );
    dropped.value = undefined;
    await hold(key);
  }

  async function expect(key: PublicKey | undefined): Promise<void> {
    wanted.value = key;
    expected.value = key && (await thumbprint(crypto.subtle, key));
  }

  /** Does something with keys; what it throws as text is for the person. */
  async function during(doing: string, action: () => Promise<string>): Promise<void> {
    said.value = '';
    error.value = '';
    const attempt = await troubles.attempt(doing, () =>
      action().then(
        (words) => ({ words, isRefused: false }),
        (reason: unknown) => {
          if (reason instanceof Refusal) return { words: reason.message, isRefused: true };
          throw reason;
        },
      ),
    );
    if (!attempt.ok) return;
    (attempt.value.isRefused ? error : said).value = attempt.value.words;
  }

  return {
    mine,
    isLasting,
    dropped,
    isSigning,
    expected,
    said,
    error,
    privateFile,
    publicFile,
    sign: (on) => {
      isSigning.value = on;
    },
    make: (backup) =>
      during('Making a key', async () => {
        const pair = await crypto.subtle.generateKey(CURVE, backup, ['sign', 'verify']);
        const publicKey = publicKeyOf(await crypto.subtle.exportKey('jwk', pair.publicKey));
        if (!publicKey) throw new Error('The browser made a key of another kind than asked for.');
        if (!backup) {
          await keep(pair.privateKey, publicKey);
          return 'A key was made. It stays in this browser and cannot be read out of it.';
        }
        const jwk = await crypto.subtle.exportKey('jwk', pair.privateKey);
        // What is held from now on cannot be read out, like any other.
        await keep(await crypto.subtle.importKey('jwk', jwk, CURVE, false, ['sign']), publicKey);
        privateFile.offer({
          name: 'light.private.jwk',
          type: JSON_TYPE,
          text: `${JSON.stringify(privateKeyOf(jwk))}\n`,
        });
        return 'A key was made, and is held in this browser. Whether its file arrived only you can see: say so below.';
      }),
    take: (file) =>
      during('Reading the key', async () => {
        const jwk = privateKeyOf(await jsonOf(file));
        if (!jwk) {
          throw new Refusal(
            `“${file.name}” holds no private key for ECDSA P-256 (a JSON Web Key). Nothing was changed.`,
          );
        }
        const publicKey = { x: jwk.x, y: jwk.y };
        const privateKey = await crypto.subtle
          .importKey('jwk', { ...jwk }, CURVE, false, ['sign'])
          .catch(() => undefined);
        if (!privateKey || !(await belongTogether(privateKey, publicKey))) {
          throw new Refusal(
            `The private and the public part in “${file.name}” do not belong together. Nothing was changed.`,
          );
        }
        await keep(privateKey, publicKey);
        return `The key of “${file.name}” is held in this browser now. The file is no longer needed here.`;
      }),
    savePublic: () => {
      const key = held.peek();
      if (!key) return;
      publicFile.offer({
        name: 'light.public.jwk',
        type: JSON_TYPE,
        text: publicKeyFile(key.publicKey),
      });
    },
    forget: () =>
      during('Forgetting the key', async () => {
        // Where the storage is gone there is nothing to remove.
        await (await shelf).remove().catch(() => undefined);
        dropped.value = undefined;
        await hold(undefined);
        privateFile.clear();
        publicFile.clear();
        return 'The key is no longer held here. Seals signed with it stay valid.';
      }),
    expectFile: (file) =>
      during('Reading the key', async () => {
        const key = publicKeyOf(await jsonOf(file));
        if (!key) {
          throw new Refusal(
            `“${file.name}” holds no public key for ECDSA P-256 (a JSON Web Key). Nothing was changed.`,
          );
        }
        await expect(key);
        return `Seals must now be signed with the key of “${file.name}”.`;
      }),
    expectMine: () =>
      during('Reading the key', async () => {
        await expect(held.peek()?.publicKey);
        return 'Seals must now be signed with your own key.';
      }),
    expectAny: () => {
      error.value = '';
      said.value = '';
      void expect(undefined);
    },
    signer: () => {
      const key = held.peek();
      return key && isSigning.peek() ? { privateKey: key.privateKey, publicKey: key.publicKey } : undefined;
    },
    expectedKey: () => wanted.peek(),
    start: async () => {
      const open = await shelf;
      if (held.peek()) return;
      isLasting.value = open.isLasting;
      await hold(await open.get().catch(() => undefined));
      if (!held.peek()) dropped.value = await open.dropped();
    },
  };
});

/** Why something about a key cannot be done, in a whole sentence. */
class Refusal extends Error {}

async function jsonOf(file: KeyFile): Promise<unknown> {
  if (file.size > FILE_MAX) throw new Refusal(`“${file.name}” is too large for a key. Nothing was changed.`);
  try {
    return JSON.parse(await file.text());
  } catch {
    throw new Refusal(`“${file.name}” cannot be read as a key (a JSON Web Key). Nothing was changed.`);
  }
}

/** Some browsers take a file whose two parts do not fit; every signature with it would be refused later. */
async function belongTogether(privateKey: CryptoKey, { x, y }: PublicKey): Promise<boolean> {
  const probe = new Uint8Array([1, 2, 3]);
  const open = await crypto.subtle
    .importKey('jwk', { kty: 'EC', crv: 'P-256', x, y }, CURVE, false, ['verify'])
    .catch(() => undefined);
  if (!open) return false;
  const algorithm = { name: 'ECDSA', hash: 'SHA-256' } as const;
  return crypto.subtle.verify(algorithm, open, await crypto.subtle.sign(algorithm, privateKey, probe), probe);
}
