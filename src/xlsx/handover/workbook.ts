import { strFromU8, strToU8 } from 'fflate';
import type { DefinedName } from '../../sheets/book';
import { xmlText } from './xml';

const SHEET_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml';
const RELATION = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet';
const NAMESPACE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

type Parts = Map<string, Uint8Array>;

function edit(parts: Parts, path: string, change: (xml: string) => string): void {
  const part = parts.get(path);
  if (part) parts.set(path, strToU8(change(strFromU8(part))));
}

/** Puts a sheet in front of the others. Names of sheets count their place, so they are moved on by one. */
export function addSheet(parts: Parts, path: string, name: string, sheetXml: string): void {
  const folder = path.slice(0, path.lastIndexOf('/') + 1);
  // Some readers find sheets by the usual names of their parts only.
  const numbers = [...parts.keys()].map((part) =>
    Number(/worksheets\/sheet(\d+)\.xml$/.exec(part)?.[1] ?? 0),
  );
  const target = `worksheets/sheet${Math.max(...numbers) + 1}.xml`;
  parts.set(`${folder}${target}`, strToU8(sheetXml));
  edit(parts, '[Content_Types].xml', (xml) =>
    before(xml, 'Types', `<Override PartName="/${folder}${target}" ContentType="${SHEET_TYPE}"/>`),
  );
  edit(parts, `${folder}_rels/workbook.xml.rels`, (xml) =>
    before(
      xml,
      'Relationships',
      `<Relationship Id="rIdLightPlainCopy" Type="${RELATION}" Target="${target}"/>`,
    ),
  );
  edit(parts, path, (xml) => {
    const ids = [...xml.matchAll(/\ssheetId\s*=\s*["'](\d+)["']/g)].map(([, id]) => Number(id));
    const id = Math.max(0, ...ids) + 1;
    // Some readers know the link by its usual prefix only, so the file's own is used.
    const own = new RegExp(`xmlns:(\\w+)\\s*=\\s*["']${NAMESPACE}["']`).exec(xml)?.[1];
    const link = own === undefined ? `xmlns:light="${NAMESPACE}" light:id` : `${own}:id`;
    return xml
      .replace(
        /<((?:\w+:)?)sheets(\s[^<>]*)?>/,
        (tag, p: string) =>
          `${tag}<${p}sheet name="${xmlText(name)}" sheetId="${id}" ${link}="rIdLightPlainCopy"/>`,
      )
      .replace(
        /(\slocalSheetId\s*=\s*["'])(\d+)/g,
        (_, start: string, at: string) => `${start}${Number(at) + 1}`,
      )
      .replace(/\s(?:activeTab|firstSheet)\s*=\s*["']\d+["']/g, '');
  });
}

/** Whether a sheet is the one in front; two that are would be written to together. */
export function select(sheetXml: string, isInFront: boolean): string {
  const bare = sheetXml.replace(
    /(<(?:\w+:)?sheetView(?=\s)[^<>]*?)\stabSelected\s*=\s*["'][^"']*["']/g,
    '$1',
  );
  return isInFront ? bare.replace(/<((?:\w+:)?)sheetView\s/, '<$1sheetView tabSelected="1" ') : bare;
}

/** The order of calculation lists cells with formulas; programs make it anew where it is not there. */
export function dropCalculationChain(parts: Parts, folder: string): void {
  const path = `${folder}calcChain.xml`;
  if (!parts.delete(path)) return;
  edit(parts, '[Content_Types].xml', (xml) =>
    xml.replace(/<(?:\w+:)?Override\s[^<>]*calcChain\.xml[^<>]*\/>/g, ''),
  );
  edit(parts, `${folder}_rels/workbook.xml.rels`, (xml) =>
    xml.replace(/<(?:\w+:)?Relationship\s[^<>]*calcChain\.xml[^<>]*\/>/g, ''),
  );
}

/** Takes names away and adds a hidden one for the workbook. */
export function editNames(xml: string, dropped: (name: string) => boolean, mark: DefinedName): string {
  const kept = xml.replace(
    /<((?:\w+:)?)definedName\s([^<>]*)>[^<]*<\/\1definedName>/g,
    (whole, _, attributes: string) => {
      const name = /(?:^|\s)name\s*=\s*["']([^"']*)["']/.exec(attributes)?.[1];
      return name !== undefined && dropped(name) ? '' : whole;
    },
  );
  const p = /<((?:\w+:)?)workbook[\s>]/.exec(xml)?.[1] ?? '';
  const added = `<${p}definedName name="${xmlText(mark.name)}" hidden="1">${xmlText(mark.refersTo.replace(/^=/, ''))}</${p}definedName>`;
  if (kept.includes(`</${p}definedNames>`)) return before(kept, 'definedNames', added);
  // The list stands behind the sheets and the links to other workbooks (ECMA-376-1, CT_Workbook).
  const list = `<${p}definedNames>${added}</${p}definedNames>`;
  const empty = kept.replace(new RegExp(`<${p}definedNames\\s*/>`), '');
  const after = ['externalReferences', 'functionGroups', 'sheets'].find((tag) =>
    empty.includes(`</${p}${tag}>`),
  );
  return empty.replace(`</${p}${after}>`, (end) => `${end}${list}`);
}

/** Print areas that would cut off what was written below a sheet reach down to it, by the sheet's place. */
export function growPrintArea(xml: string, lastRows: ReadonlyMap<number, number>): string {
  return xml.replace(
    /(<(?:\w+:)?definedName\s)([^<>]*)>([^<]*)(?=<)/g,
    (whole, start: string, attributes: string, text: string) => {
      if (!/(?:^|\s)name\s*=\s*["']_xlnm\.Print_Area["']/.test(attributes)) return whole;
      const at = /\slocalSheetId\s*=\s*["'](\d+)["']/.exec(` ${attributes}`)?.[1];
      const last = at === undefined ? undefined : lastRows.get(Number(at));
      const area = /^(.*!\$[A-Z]+\$\d+:\$[A-Z]+\$)(\d+)$/.exec(text);
      if (last === undefined || !area || Number(area[2]) >= last) return whole;
      return `${start}${attributes}>${area[1]}${last}`;
    },
  );
}

function before(xml: string, tag: string, added: string): string {
  return xml.replace(new RegExp(`</((?:\\w+:)?)${tag}>`), (end) => `${added}${end}`);
}
