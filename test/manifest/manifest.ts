import { readFileSync } from 'node:fs';

export const manifestText = readFileSync('manifest.xml', 'utf8');

/** The manifest as a document, for tests that run with jsdom's DOM. Throws if it is not well-formed. */
export function parseManifest(xml: string): Document {
  const document = new DOMParser().parseFromString(xml, 'application/xml');
  const trouble = document.querySelector('parsererror');
  if (trouble) throw new Error(trouble.textContent ?? 'not well-formed');
  return document;
}

/** Every element of that name, whatever its namespace. */
export function all(parent: Document | Element, name: string): Element[] {
  return [...parent.getElementsByTagNameNS('*', name)];
}

/** An element's children by name, in order. */
export function childNames(parent: Element): string[] {
  return [...parent.children].map(({ localName }) => localName);
}

/** Every address in the manifest. */
export function addresses(manifest: Document): string[] {
  return [...manifest.querySelectorAll('*')].flatMap((element) =>
    [...element.attributes]
      .filter(({ name }) => name === 'DefaultValue')
      .map(({ value }) => value)
      .filter((value) => /^https?:/.test(value)),
  );
}
