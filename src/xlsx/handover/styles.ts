/** Numbers of the looks that the cover uses. */
export interface Looks {
  readonly title: number;
  readonly heading: number;
  readonly text: number;
}

/** Adds the looks of the cover behind those of the file: its own font, larger and bold, bold, and wrapped. */
export function addStyles(xml: string): { xml: string; looks: Looks } {
  const p = /<((?:\w+:)?)styleSheet[\s>]/.exec(xml)?.[1] ?? '';
  const font = new RegExp(`<${p}font(?:\\s[^<>]*)?>([\\s\\S]*?)</${p}font>`).exec(xml)?.[1] ?? '';
  const bold = `<${p}b/>${font.replace(new RegExp(`<${p}b(?:\\s[^<>]*)?/>`), '')}`;
  const large = bold.replace(new RegExp(`<${p}sz\\s[^<>]*/>`), `<${p}sz val="16"/>`);
  const fonts = append(xml, p, 'fonts', [`<${p}font>${large}</${p}font>`, `<${p}font>${bold}</${p}font>`]);
  const look = (fontId: number) =>
    `<${p}xf numFmtId="0" fontId="${fontId}" fillId="0" borderId="0" xfId="0" applyFont="1" applyAlignment="1"><${p}alignment vertical="top" wrapText="1"/></${p}xf>`;
  const { xml: done, first } = append(fonts.xml, p, 'cellXfs', [
    look(fonts.first),
    look(fonts.first + 1),
    look(0),
  ]);
  return { xml: done, looks: { title: first, heading: first + 1, text: first + 2 } };
}

/** Adds elements to a counted list; answers with the number of the first one. */
function append(
  xml: string,
  p: string,
  list: string,
  items: readonly string[],
): { xml: string; first: number } {
  const open = new RegExp(`<${p}${list}(\\s[^<>]*)?>([\\s\\S]*?)</${p}${list}>`);
  const found = open.exec(xml);
  if (!found) return { xml, first: 0 };
  const [whole, attributes = '', contents = ''] = found;
  const child = list === 'fonts' ? 'font' : 'xf';
  const first = [...contents.matchAll(new RegExp(`<${p}${child}[\\s/>]`, 'g'))].length;
  const counted = attributes.replace(/\scount\s*=\s*["']\d+["']/, ` count="${first + items.length}"`);
  const next = `<${p}${list}${counted}>${contents}${items.join('')}</${p}${list}>`;
  return { xml: xml.replace(whole, () => next), first };
}
