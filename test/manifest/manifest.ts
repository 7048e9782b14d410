import { readFileSync } from 'node:fs';
import { JSDOM } from 'jsdom';

export const manifestText = readFileSync('manifest.xml', 'utf8');

/** The manifest as a document; throws if it is not well-formed. */
export function parseManifest(xml: string): Document {
  const { DOMParser } = new JSDOM('').window;
  return new DOMParser().parseFromString(xml, 'application/xml');
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
