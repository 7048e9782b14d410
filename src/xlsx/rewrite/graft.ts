import { strFromU8, strToU8 } from 'fflate';
import { xmlText } from '../handover/xml';

const NAMESPACE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

type Parts = Map<string, Uint8Array>;

/** Parts that each workbook has one of. */
const SINGLE =
  /^(?:\[Content_Types\]\.xml|_rels\/|docProps\/|xl\/(?:workbook|styles|sharedStrings|metadata)\.xml$|xl\/_rels\/|xl\/theme\/)/;

/**
 * Puts the sheets of a workbook that we have written behind those of another file, with their charts and notes. Looks
 * are added to those of the file, texts stand in their cells; numbers of parts go on where those of the file end.
 *
 * @param path of the file's workbook.xml
 * @param names of the sheets, in their order
 */
export function graft(parts: Parts, path: string, donor: Parts, names: readonly string[]): void {
  const folder = path.slice(0, path.lastIndexOf('/') + 1);
  const text = (of: Parts, at: string) => strFromU8(of.get(at) ?? new Uint8Array());
  const edit = (at: string, change: (xml: string) => string) =>
    parts.set(at, strToU8(change(text(parts, at))));
  const offsets = addLooks(parts, `${folder}styles.xml`, text(donor, 'xl/styles.xml'));
  const shared = [...text(donor, 'xl/sharedStrings.xml').matchAll(/<si>([\s\S]*?)<\/si>|<si\/>/g)].map(
    ([, inside = '']) => inside,
  );
  const called = newPaths(parts, donor, folder);
  for (const [from, to] of called) {
    const xml = text(donor, from);
    if (from.endsWith('.rels')) parts.set(to, strToU8(relinked(xml, called)));
    else if (/worksheets\/sheet\d+\.xml$/.test(from)) parts.set(to, strToU8(adapted(xml, offsets, shared)));
    else parts.set(to, donor.get(from)!);
  }
  const types = text(donor, '[Content_Types].xml');
  edit('[Content_Types].xml', (xml) => withTypes(xml, types, called));
  if (donor.has('xl/metadata.xml') && !parts.has(`${folder}metadata.xml`)) addMetadata(parts, donor, folder);
  names.forEach((name, i) => {
    addSheetLink(parts, path, name, called.get(`xl/worksheets/sheet${i + 1}.xml`)!.slice(folder.length));
  });
}

/** Where parts of the donor come to stand: under their own kind of name, with numbers that are free. */
function newPaths(parts: Parts, donor: Parts, folder: string): Map<string, string> {
  const number = (path: string) => /^(.*?)(\d+)(\.\w+(?:\.rels)?)$/.exec(path);
  const most = new Map<string, number>();
  for (const path of parts.keys()) {
    const [, stem = '', at] = number(path) ?? [];
    if (at !== undefined) most.set(stem, Math.max(most.get(stem) ?? 0, Number(at)));
  }
  const found = new Map<string, string>();
  for (const path of donor.keys()) {
    if (SINGLE.test(path)) continue;
    const to = path.replace(/^xl\//, folder);
    const [, stem = '', at, end = ''] = number(to) ?? [];
    if (at === undefined) continue;
    // The links of a part bear its own number.
    const bare = stem.replace(/_rels\/(?=[^/]*$)/, '');
    found.set(path, `${stem}${Number(at) + (most.get(bare) ?? 0)}${end}`);
  }
  return found;
}

function relinked(xml: string, called: ReadonlyMap<string, string>): string {
  const byName = new Map([...called].map(([from, to]) => [nameOf(from), nameOf(to)]));
  return xml.replace(/(\sTarget=")([^"]*)(")/g, (_, start: string, target: string, end: string) => {
    const name = byName.get(nameOf(target));
    return name === undefined
      ? `${start}${target}${end}`
      : start + target.slice(0, -nameOf(target).length) + name + end;
  });
}

function nameOf(path: string): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

interface Offsets {
  readonly xf: number;
  readonly dxf: number;
}

/** A sheet with its looks counted on and its shared texts in their cells. It is not the one in front. */
function adapted(xml: string, { xf, dxf }: Offsets, shared: readonly string[]): string {
  const shifted = (text: string, attribute: string, by: number) =>
    text.replace(
      new RegExp(`(\\s${attribute}=")(\\d+)"`),
      (_, start: string, n: string) => `${start}${Number(n) + by}"`,
    );
  return xml
    .replace(/<sheetView tabSelected="1"/g, '<sheetView')
    .replace(/<(?:c|row)\s[^<>]*>/g, (tag) => shifted(tag, 's', xf))
    .replace(/<col\s[^<>]*>/g, (tag) => shifted(tag, 'style', xf))
    .replace(/<cfRule\s[^<>]*>/g, (tag) => shifted(tag, 'dxfId', dxf))
    .replace(
      /(<c\s[^<>]*?)\st="s"([^<>]*)><v>(\d+)<\/v><\/c>/g,
      (_, start: string, rest: string, n: string) =>
        `${start} t="inlineStr"${rest}><is>${shared[Number(n)] ?? '<t/>'}</is></c>`,
    );
}

/** Adds the looks of one workbook to those of another. */
function addLooks(parts: Parts, path: string, donor: string): Offsets {
  let xml = strFromU8(parts.get(path)!);
  const p = /<((?:\w+:)?)styleSheet[\s>]/.exec(xml)?.[1] ?? '';
  const prefixed = (text: string) => (p === '' ? text : text.replace(/<(\/?)(?=\w)/g, `<$1${p}`));
  const items = (list: string, child: string) => {
    const inside = new RegExp(`<${list}(?:\\s[^<>]*)?>([\\s\\S]*?)</${list}>`).exec(donor)?.[1] ?? '';
    return [...inside.matchAll(new RegExp(`<${child}(?:\\s[^<>]*?)?(?:/>|>[\\s\\S]*?</${child}>)`, 'g'))].map(
      ([item]) => item,
    );
  };
  const formats = new Map<number, number>();
  const used = [...xml.matchAll(/\snumFmtId="(\d+)"/g)].map(([, id]) => Number(id));
  let free = Math.max(163, ...used);
  for (const item of items('numFmts', 'numFmt'))
    formats.set(Number(/numFmtId="(\d+)"/.exec(item)![1]), ++free);
  const renumbered = (item: string) =>
    item.replace(/numFmtId="(\d+)"/g, (_, id: string) => `numFmtId="${formats.get(Number(id)) ?? id}"`);
  const add = (list: string, child: string, added: readonly string[], before: readonly string[]): number => {
    const done = append(xml, p, { list, child, added: added.map(prefixed), before });
    xml = done.xml;
    return done.first;
  };
  add('numFmts', 'numFmt', items('numFmts', 'numFmt').map(renumbered), ['fonts']);
  const font = add('fonts', 'font', items('fonts', 'font'), ['fills']);
  const fill = add('fills', 'fill', items('fills', 'fill'), ['borders']);
  const border = add('borders', 'border', items('borders', 'border'), ['cellStyleXfs', 'cellXfs']);
  const by = (item: string, attribute: string, offset: number) =>
    item.replace(
      new RegExp(`(\\s${attribute}=")(\\d+)"`),
      (_, start: string, n: string) => `${start}${Number(n) + offset}"`,
    );
  const looks = items('cellXfs', 'xf').map((item) =>
    by(by(by(renumbered(item), 'fontId', font), 'fillId', fill), 'borderId', border).replace(
      /\sxfId="\d+"/,
      ' xfId="0"',
    ),
  );
  const xf = add('cellXfs', 'xf', looks, ['cellStyles', 'dxfs', 'tableStyles']);
  const dxf = add('dxfs', 'dxf', items('dxfs', 'dxf').map(renumbered), ['tableStyles', 'colors', 'extLst']);
  parts.set(path, strToU8(xml));
  return { xf, dxf };
}

interface Addition {
  readonly list: string;
  readonly child: string;
  readonly added: readonly string[];
  /** Lists that stand behind it (ECMA-376-1, CT_Stylesheet). */
  readonly before: readonly string[];
}

/** Adds elements to a counted list; answers with the number of the first one. */
export function append(
  xml: string,
  p: string,
  { list, child, added, before }: Addition,
): { xml: string; first: number } {
  if (added.length === 0) return { xml, first: 0 };
  const found = new RegExp(`<${p}${list}(\\s[^<>]*)?>([\\s\\S]*?)</${p}${list}>`).exec(xml);
  if (!found) {
    const bare = xml.replace(new RegExp(`<${p}${list}(?:\\s[^<>]*)?/>`), '');
    const whole = `<${p}${list} count="${added.length}">${added.join('')}</${p}${list}>`;
    const next = before.map((tag) => new RegExp(`<${p}${tag}[\\s/>]`).exec(bare)?.[0]).find(Boolean);
    const end = next ?? `</${p}styleSheet>`;
    return { xml: bare.replace(end, () => whole + end), first: 0 };
  }
  const [whole, attributes = '', contents = ''] = found;
  const first = topLevel(contents, p, child);
  const counted = attributes.replace(/\scount\s*=\s*["']\d+["']/, ` count="${first + added.length}"`);
  const next = `<${p}${list}${counted}>${contents}${added.join('')}</${p}${list}>`;
  return { xml: xml.replace(whole, () => next), first };
}

/** Elements of a list, not counting those of the same name inside others: a look of a condition has a font. */
function topLevel(contents: string, p: string, child: string): number {
  return [
    ...contents.matchAll(new RegExp(`<${p}${child}(?:\\s[^<>]*?)?(?:/>|>[\\s\\S]*?</${p}${child}>)`, 'g')),
  ].length;
}

function withTypes(xml: string, donor: string, called: ReadonlyMap<string, string>): string {
  const overrides = [...donor.matchAll(/<Override PartName="\/([^"]*)" ContentType="([^"]*)"\/>/g)].flatMap(
    ([, part = '', type]) => {
      const to = called.get(part);
      return to === undefined ? [] : [`<Override PartName="/${to}" ContentType="${type}"/>`];
    },
  );
  const defaults = [...donor.matchAll(/<Default Extension="([^"]*)" ContentType="[^"]*"\/>/g)].flatMap(
    ([tag, extension]) => (new RegExp(`Extension\\s*=\\s*["']${extension}["']`, 'i').test(xml) ? [] : [tag]),
  );
  const p = /<((?:\w+:)?)Types[\s>]/.exec(xml)?.[1] ?? '';
  const added = [...defaults, ...overrides].join('').replace(/<(?=\w)/g, `<${p}`);
  return xml.replace(`</${p}Types>`, (end) => added + end);
}

/** What marks a cell whose function fills others; a file that has such cells has the part. */
function addMetadata(parts: Parts, donor: Parts, folder: string): void {
  parts.set(`${folder}metadata.xml`, donor.get('xl/metadata.xml')!);
  const type = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml';
  addBefore(
    parts,
    '[Content_Types].xml',
    'Types',
    `Override PartName="/${folder}metadata.xml" ContentType="${type}"`,
  );
  const link = `Relationship Id="rIdLightMetadata" Type="${NAMESPACE}/sheetMetadata" Target="metadata.xml"`;
  addBefore(parts, `${folder}_rels/workbook.xml.rels`, 'Relationships', link);
}

function addBefore(parts: Parts, path: string, list: string, element: string): void {
  const xml = strFromU8(parts.get(path)!);
  const p = new RegExp(`</((?:\\w+:)?)${list}>`).exec(xml)?.[1] ?? '';
  parts.set(path, strToU8(xml.replace(`</${p}${list}>`, (end) => `<${p}${element}/>${end}`)));
}

function addSheetLink(parts: Parts, path: string, name: string, target: string): void {
  const folder = path.slice(0, path.lastIndexOf('/') + 1);
  const rels = `${folder}_rels/workbook.xml.rels`;
  const taken = strFromU8(parts.get(rels)!);
  let id = 'rIdLight1';
  for (let n = 1; taken.includes(`"${id}"`); n++) id = `rIdLight${n + 1}`;
  addBefore(
    parts,
    rels,
    'Relationships',
    `Relationship Id="${id}" Type="${NAMESPACE}/worksheet" Target="${target}"`,
  );
  const xml = strFromU8(parts.get(path)!);
  const numbers = [...xml.matchAll(/\ssheetId\s*=\s*["'](\d+)["']/g)].map(([, n]) => Number(n));
  // Some readers know the link by its usual prefix only, so the file's own is used.
  const own = new RegExp(`xmlns:(\\w+)\\s*=\\s*["']${NAMESPACE}["']`).exec(xml)?.[1];
  const link = own === undefined ? `xmlns:light="${NAMESPACE}" light:id` : `${own}:id`;
  const number = Math.max(0, ...numbers) + 1;
  addBefore(parts, path, 'sheets', `sheet name="${xmlText(name)}" sheetId="${number}" ${link}="${id}"`);
}
