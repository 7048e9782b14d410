import { textCell } from './xml';

/** A cell: prefix, attributes, contents. Stops where the next cell starts, so that unclosed ones cost no time. */
const CELL = /<((?:\w+:)?)c((?:\s[^<>]*?)?)(?:\/>|>((?:(?!<(?:\w+:)?c[\s/>])[\s\S])*?)<\/\1c>)/g;
const FORMULA = /<((?:\w+:)?)f(?:\s[^<>]*?)?(?:\/>|>[\s\S]*?<\/\1f>)/g;
const VALUE = /<((?:\w+:)?)v(?:\s[^<>]*?)?>([\s\S]*?)<\/\1v>/;

/** Takes the formulas out of some cells and leaves their results. */
export function freeze(xml: string, cells: ReadonlySet<string>): string {
  return xml.replace(CELL, (whole, prefix: string, attributes: string, contents?: string) => {
    const at = /\sr\s*=\s*["']([A-Z]+[0-9]+)["']/.exec(attributes)?.[1];
    if (at === undefined || !cells.has(at) || contents === undefined) return whole;
    const rest = contents.replace(FORMULA, '');
    // Marks a dynamic array, which a value is not.
    const kept = attributes.replace(/\scm\s*=\s*["'][^"']*["']/, '');
    if (!/\st\s*=\s*["']str["']/.test(kept)) return `<${prefix}c${kept}>${rest}</${prefix}c>`;
    // The text of a formula is stored in another way than a text that was typed.
    const text = VALUE.exec(rest)?.[2] ?? '';
    const typed = kept.replace(/\st\s*=\s*["']str["']/, ' t="inlineStr"');
    return `<${prefix}c${typed}><${prefix}is><${prefix}t xml:space="preserve">${text}</${prefix}t></${prefix}is></${prefix}c>`;
  });
}

/** Free rows between what stands on a sheet and a note below it. */
const GAP = 2;

/** Writes lines into column A, below everything on the sheet. */
export function addNote(xml: string, lines: readonly string[]): { xml: string; lastRow: number } {
  const rows = [...xml.matchAll(/<(?:\w+:)?row\s[^<>]*?\br\s*=\s*["'](\d+)["']/g)].map(([, row]) =>
    Number(row),
  );
  const first = Math.max(0, ...rows) + GAP;
  const prefix = /<((?:\w+:)?)sheetData[\s/>]/.exec(xml)?.[1] ?? '';
  const added = lines
    .map(
      (line, i) =>
        `<${prefix}row r="${first + i}">${textCell(`A${first + i}`, line, undefined, prefix)}</${prefix}row>`,
    )
    .join('');
  const end = new RegExp(`</${prefix}sheetData>`);
  const lastRow = first + lines.length - 1;
  if (!end.test(xml)) return { xml, lastRow: 0 };
  return { xml: xml.replace(end, () => `${added}</${prefix}sheetData>`), lastRow };
}
