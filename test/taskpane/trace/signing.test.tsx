import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { textNames, textOf } from '../../../src/audit/seal/constant';
import { thumbprint } from '../../../src/audit/seal/sign';
import type { DefinedName } from '../../../src/sheets/book';
import { memoryPreferences } from '../../../taskpane/preferences';
import type { Store } from '../../../taskpane/store';
import { type KeyShelf, memoryKeyShelf, rememberedShelf } from '../../../taskpane/trace/keyshelf';
import type { FakeHost } from '../fakehost';
import { unfold } from '../unfold';
import { one, openTrace, several } from './audited';

/*
 * Keys here are made by Web Crypto, as in the browser. That signatures are right is held against the standard's
 * own implementation (Node's Web Crypto) in the tests of the seal; here it is what a person does with them.
 */
const stores: Store[] = [];
let shelf: KeyShelf;
let saved: { name: string; text: Promise<string> }[];
beforeEach(() => {
  shelf = memoryKeyShelf();
  saved = [];
  // The environment has neither; the text is what a file would hold.
  URL.createObjectURL = (blob: Blob) => {
    saved.push({ name: '', text: textOfBlob(blob) });
    return 'blob:test';
  };
  URL.revokeObjectURL = () => {};
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
    saved.at(-1)!.name = this.download;
  });
});
afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
  for (const store of stores.splice(0)) store.stop();
});

const press = (name: string) => fireEvent.click(screen.getByRole('button', { name }));
const tick = (label: string | RegExp) => fireEvent.click(screen.getByLabelText(label));
const open = async (host: FakeHost) => {
  cleanup();
  stores.push(await openTrace(host, { keyShelf: async () => shelf }));
  await unfold();
  fireEvent.input(screen.getByLabelText('Who seals or opens'), { target: { value: 'A. Nobody' } });
};
function choose(label: string | RegExp, name: string, text: string): void {
  const input = screen.getByLabelText(label);
  const file = { name, size: text.length, text: async () => text };
  Object.defineProperty(input, 'files', { value: [file], configurable: true });
  fireEvent.change(input);
}
async function makeKey(): Promise<string> {
  press('Make a key');
  await screen.findByText(/^A key was made/);
  return document.querySelector('.keys code')!.textContent!;
}
async function seal(): Promise<void> {
  press('Seal this sheet');
  await screen.findByText(/^Sealed “/);
}
async function compare(): Promise<string> {
  press('Compare with its seal');
  await screen.findByText(/^Compared “/);
  return document.querySelector('.verdict')!.textContent!;
}
/** A key file of somebody else. */
async function stranger(part: 'public' | 'private' = 'public'): Promise<string> {
  const pair = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, true, [
    'sign',
    'verify',
  ]);
  return JSON.stringify(
    await crypto.subtle.exportKey('jwk', part === 'public' ? pair.publicKey : pair.privateKey),
  );
}
const sealNames = (names: readonly DefinedName[]) => names.filter(({ name }) => /^LightSeal/.test(name));
const bare = (names: readonly DefinedName[]) => names.filter(({ name }) => !/^LightSeal/.test(name));

describe('a key', () => {
  it('is made and held so that it cannot be read out, and is there again the next time', async () => {
    await open(one());
    const print = await makeKey();
    const held = (await shelf.get())!;
    expect(held.privateKey.extractable).toBe(false);
    expect(held.privateKey.usages).toEqual(['sign']);
    expect(print).toBe(await thumbprint(crypto.subtle, held.publicKey));
    expect(saved).toEqual([]);
    await open(one());
    expect(await screen.findByText(print)).toBeTruthy();
  });

  it('is saved once as a file when asked, and that file gives the same key back', async () => {
    await open(one());
    tick(/Also save it as a file/);
    const print = await makeKey();
    expect(saved.map(({ name }) => name)).toEqual(['light.private.jwk']);
    expect(document.querySelector('.keys')!.textContent).not.toMatch(/[Ss]aved/);
    press('Yes, it is there');
    expect(await screen.findByText('Saved: light.private.jwk.')).toBeTruthy();
    expect((await shelf.get())!.privateKey.extractable).toBe(false);
    const file = await saved[0]!.text;
    press('Forget the key …');
    press('Forget it for good');
    await screen.findByText('No key is held in this browser.');
    expect(await shelf.get()).toBeUndefined();
    choose('Or take a private key from a file', 'light.private.jwk', file);
    expect(
      await screen.findByText(/The key of “light.private.jwk” is held in this browser now/),
    ).toBeTruthy();
    expect(document.querySelector('.keys code')!.textContent).toBe(print);
  });

  it('is never called saved where no file came: its text stands there until the person has it', async () => {
    await open(one());
    tick(/Also save it as a file/);
    await makeKey();
    press('No, nothing came');
    const text = (await screen.findByLabelText<HTMLTextAreaElement>('Text to copy')).value;
    expect(text).toBe(await saved[0]!.text);
    expect(document.querySelector('.keys')!.textContent).not.toMatch(/[Ss]aved:/);
    expect(screen.getByText(/afterwards the key cannot be read out again/)).toBeTruthy();
    press('I have kept the text');
    expect(await screen.findByText('You have kept light.private.jwk as text.')).toBeTruthy();
    expect(screen.queryByLabelText('Text to copy')).toBeNull();
    expect(document.body.innerHTML).not.toContain(JSON.parse(text).d);
  });

  it('that the browser has dropped is missed, in words, and forgotten ones are not', async () => {
    const preferences = memoryPreferences();
    shelf = rememberedShelf(memoryKeyShelf(), preferences);
    await open(one());
    await makeKey();
    // The browser clears what the page kept, but for the one mark.
    shelf = rememberedShelf(memoryKeyShelf(), preferences);
    await open(one());
    expect(
      await screen.findByText(/^A key was held here since \d{4}-\d\d-\d\d, and this browser has dropped it/),
    ).toBeTruthy();
    await makeKey();
    press('Forget the key …');
    press('Forget it for good');
    await screen.findByText('No key is held in this browser.');
    await open(one());
    await screen.findByText('No key is held in this browser.');
    expect(screen.queryByText(/has dropped it/)).toBeNull();
  });

  it('is held as long as the pane where the storage goes while it is used', async () => {
    shelf = {
      ...memoryKeyShelf(),
      isLasting: true,
      put: () => Promise.reject(new Error('The database connection is closing.')),
    };
    await open(one());
    const print = await makeKey();
    expect(
      screen.getByText('This browser keeps nothing: the key goes when the pane is closed.'),
    ).toBeTruthy();
    expect(document.querySelector('.keys code')!.textContent).toBe(print);
  });

  it.each([
    ['no JSON', 'hello', /“key.jwk” cannot be read as a key/],
    ['another kind', '{"kty":"RSA","n":"x"}', /“key.jwk” holds no private key for ECDSA P-256/],
    ['only the public part', 'public', /holds no private key/],
    ['too large', `"${'x'.repeat(20_000)}"`, /too large for a key/],
  ])('from a file that is %s is refused in words', async (_, text, words) => {
    await open(one());
    choose(
      'Or take a private key from a file',
      'key.jwk',
      text === 'public' ? await stranger('public') : text,
    );
    expect(await screen.findByText(words)).toBeTruthy();
    expect(await shelf.get()).toBeUndefined();
  });

  it('whose parts do not belong together is refused', async () => {
    await open(one());
    const [a, b] = [JSON.parse(await stranger('private')), JSON.parse(await stranger('private'))];
    choose('Or take a private key from a file', 'key.jwk', JSON.stringify({ ...a, d: b.d }));
    expect(await screen.findByText(/do not belong together/)).toBeTruthy();
    expect(await shelf.get()).toBeUndefined();
  });

  it('gives its public part to hand out, and nothing of the private one', async () => {
    await open(one());
    await makeKey();
    press('Save the public key');
    expect(saved.map(({ name }) => name)).toEqual(['light.public.jwk']);
    const jwk = JSON.parse(await saved[0]!.text);
    expect(Object.keys(jwk).sort()).toEqual(['crv', 'kty', 'x', 'y']);
    expect({ x: jwk.x, y: jwk.y }).toEqual((await shelf.get())!.publicKey);
  });
});

describe('a signed seal', () => {
  it('says whose key signed it; the workbook never holds the private part', async () => {
    const host = one();
    await open(host);
    const print = await makeKey();
    tickOff();
    await seal();
    expect(document.querySelector('.verdict')!.textContent).toContain(`fits, key ${print}, which is yours`);
    const { x } = (await shelf.get())!.publicKey;
    const text = textOf('LightSeal', host.sheets.get(host.active)!.book.names)!;
    expect(text).toContain(x);
    expect(host.logged.map(({ what }) => what)).toEqual(['sealed', 'signed']);
    expect(host.logged[1]!.detail).toContain(print);
  });

  it('is made without a signature when that is switched off', async () => {
    const host = one();
    await open(host);
    await makeKey();
    tick('Sign new seals with it');
    await seal();
    expect(textOf('LightSeal', host.sheets.get(host.active)!.book.names)!.endsWith('|')).toBe(true);
    expect(document.querySelector('.verdict')!.textContent).not.toContain('signature');
  });

  it('is accepted by those who expect that key, from its public file', async () => {
    const host = one();
    await open(host);
    const print = await makeKey();
    press('Save the public key');
    await seal();
    const file = await saved[0]!.text;
    // Another person, with another browser.
    shelf = memoryKeyShelf();
    await open(host);
    choose('Expect that of a public key file', 'their.jwk', file);
    await screen.findByText(/^Seals must now be signed with the key of “their.jwk”/);
    const verdict = await compare();
    expect(verdict).toContain('The seal holds');
    expect(verdict).toContain(`fits, key ${print}, as expected`);
  });

  it('is refused with the wrong key', async () => {
    const host = one();
    await open(host);
    await makeKey();
    await seal();
    choose('Expect that of a public key file', 'other.jwk', await stranger());
    await screen.findByText(/^Seals must now be signed/);
    expect(await compare()).toMatch(/The seal is broken.*signed with another key than the one expected/);
    press('Expect nobody’s');
    await waitFor(async () => expect(await compare()).toContain('The seal holds'));
  });

  it('is missed where one is expected', async () => {
    const host = one();
    await open(host);
    await seal();
    choose('Expect that of a public key file', 'other.jwk', await stranger());
    await screen.findByText(/^Seals must now be signed/);
    expect(await compare()).toMatch(/The seal is broken.*not signed, though a signature was asked for/);
  });

  it('is refused when the signature was altered', async () => {
    const host = one();
    await open(host);
    await makeKey();
    await seal();
    host.edit(host.active, ({ names }) => {
      const text = textOf('LightSeal', names)!;
      const at = text.length - 40;
      const altered = text.slice(0, at) + (text[at] === 'A' ? 'B' : 'A') + text.slice(at + 1);
      const others = names.filter(({ name }) => !/^LightSeal(\.\d+)?$/.test(name));
      return { names: [...others, ...textNames('LightSeal', altered)] };
    });
    const verdict = await compare();
    expect(verdict).toMatch(/The seal is broken.*The signature does not fit the seal/);
    expect(verdict).toContain('signaturerefused');
  });

  it('is refused on sheets whose seals were swapped', async () => {
    const host = several(1, 2);
    const [first, second] = [...host.sheets.keys()] as [string, string];
    await open(host);
    await makeKey();
    for (const sheet of [first, second]) {
      host.activate(sheet);
      press('Seal this sheet');
      await screen.findByText(`Sealed “${sheet}” and signed the seal.`);
    }
    const [one1, two] = [first, second].map((sheet) => host.sheets.get(sheet)!.book.names);
    host.edit(first, () => ({ names: [...bare(one1!), ...sealNames(two!)] }));
    host.edit(second, () => ({ names: [...bare(two!), ...sealNames(one1!)] }));
    expect(await compare()).toMatch(/The seal is broken.*belongs to another sheet/);
  });

  it('is refused when the sheet comes from another workbook', async () => {
    const there = one();
    await open(there);
    await makeKey();
    await seal();
    const here = several(2);
    here.names = [{ name: 'LightBook', refersTo: '="light-book|1|elsewhere1"', hidden: true }];
    here.sheets.set('Brought', {
      book: { ...there.sheets.get(there.active)!.book, name: 'Brought' },
      changed: new Map(),
    });
    here.active = 'Brought';
    await open(here);
    expect(await compare()).toMatch(/The seal is broken.*sealed in another workbook/);
  });
});

it('what a signature is worth is said beside the keys', async () => {
  await open(one());
  const fold = document.querySelector<HTMLElement>('.keys')!;
  expect(within(fold).getByText(/whose key it is cannot be seen from the signature/)).toBeTruthy();
  expect(within(fold).getByText(/never the private key/)).toBeTruthy();
});

function textOfBlob(blob: Blob): Promise<string> {
  return new Promise((resolve) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result));
    reader.readAsText(blob);
  });
}

/** A key that was just made signs unless somebody says otherwise. */
function tickOff(): void {
  expect((screen.getByLabelText('Sign new seals with it') as HTMLInputElement).checked).toBe(true);
}
