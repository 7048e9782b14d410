/*
 * Just enough XML for the two small files whose attributes the library does not pass on: flat elements, their
 * attributes, their text. Comments and CDATA do not occur in them.
 */

/** Stops at any "<", which no attribute may hold, so that a file full of open tags is still read in one go. */
const ATTRIBUTES = `(?:[^<>"']|"[^"<]*"|'[^'<]*')*?`;
const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

export interface Element {
  readonly text: string;
  /** An attribute by its local name, or undefined. */
  attribute(name: string): string | undefined;
}

/** All elements of a local name, in the file's order, whatever their namespace prefix. */
export function elements(xml: string, name: string): Element[] {
  const open = `<(?:[\\w.-]+:)?${name}(?=[\\s/>])(${ATTRIBUTES})`;
  const found = new RegExp(`${open}(?:/>|>([^<]*))`, 'g');
  return [...xml.matchAll(found)].map(([, attributes = '', text = '']) => ({
    text: decode(text),
    attribute: (key) => {
      const match = new RegExp(`(?:^|[\\s:])${key}\\s*=\\s*(?:"([^"]*)"|'([^']*)')`).exec(attributes);
      return match ? decode(match[1] ?? match[2] ?? '') : undefined;
    },
  }));
}

function decode(text: string): string {
  return text.replace(/&(?:#x([0-9a-fA-F]+)|#([0-9]+)|([a-z]+));/g, (whole, hex, decimal, entity) => {
    const code = hex ? Number.parseInt(hex, 16) : decimal ? Number.parseInt(decimal, 10) : undefined;
    if (code === undefined) return ENTITIES[entity] ?? whole;
    return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}
