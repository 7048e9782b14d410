/** Text → XML, for elements and attributes. Characters that XML cannot hold go. */
export function xmlText(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');
}

/** A cell that holds a text in itself. `prefix` is that of the file's elements, `x:` or none. */
export function textCell(at: string, text: string, style: number | undefined, prefix = ''): string {
  const look = style === undefined ? '' : ` s="${style}"`;
  const p = prefix;
  return `<${p}c r="${at}"${look} t="inlineStr"><${p}is><${p}t xml:space="preserve">${xmlText(text)}</${p}t></${p}is></${p}c>`;
}
