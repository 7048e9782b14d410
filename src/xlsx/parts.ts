import { strFromU8 } from 'fflate';
import { damaged, XlsxError } from './error';
import { checkSpelling, type PartKind } from './spelling';
import { elements } from './xml';
import { listZip, unzip, type ZipLimits } from './zip';

/** 16 MB packed, 96 MB unpacked: 300 run sheets of all layouts, of which one has 0.3 MB. */
const LIMITS: ZipLimits = { file: 16_000_000, unpacked: 96_000_000, parts: 2000 };

/** Folders with nothing that a Book keeps; not unpacked at all. */
const LEFT_OUT =
  /(?:^|\/)(?:charts|chartsheets|drawings|pivot\w*|slicer\w*|timeline\w*|externalLinks|ctrlProps|queryTables|customXml|docProps|richData|media|printerSettings)\//;

const OLD_OR_LOCKED = [0xd0, 0xcf, 0x11, 0xe0];
const ZIP = [0x50, 0x4b];

/**
 * The parts of an .xlsx file by path, by default those that a Book is read from; refuses everything that is not such
 * a file.
 */
export function openParts(
  bytes: Uint8Array,
  wanted: (path: string) => boolean = (path) => /\.(?:xml|rels)$/.test(path) && !LEFT_OUT.test(path),
): Map<string, Uint8Array> {
  if (OLD_OR_LOCKED.every((byte, at) => bytes[at] === byte)) {
    throw new XlsxError(
      'locked',
      'The file is protected with a password, or it is an old .xls file.',
      'Save it as .xlsx without a password and open that.',
    );
  }
  if (!ZIP.every((byte, at) => bytes[at] === byte)) throw notWorkbook();
  const paths = listZip(bytes, LIMITS);
  if (paths.some((path) => /vbaProject\.bin$|\/macrosheets\//i.test(path))) {
    throw new XlsxError(
      'macros',
      'The file holds macros, which are not opened here.',
      'Save it as a plain .xlsx workbook (without macros) and open that.',
    );
  }
  if (!paths.includes('[Content_Types].xml') || paths.some((path) => /workbook\.bin$/.test(path))) {
    throw notWorkbook();
  }
  const parts = unzip(bytes, LIMITS, wanted);
  for (const [path, part] of parts) if (/\.(?:xml|rels)$/.test(path)) checkText(path, part);
  return parts;
}

/** Letters in another encoding would come out as others. @throws XlsxError `damaged` */
function checkText(path: string, part: Uint8Array): void {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(part);
  } catch (cause) {
    throw damaged(`its part ${path} is not a text in UTF-8`, { cause });
  }
}

function notWorkbook(): XlsxError {
  return new XlsxError(
    'format',
    'The file is not an .xlsx workbook.',
    'Open it in a spreadsheet program and save it as .xlsx.',
  );
}

export interface SheetPart {
  readonly name: string;
  /** Where its part is in the file; undefined for a chart sheet. */
  readonly path: string | undefined;
  /** The worksheet's XML; undefined for a chart sheet. */
  readonly xml: string | undefined;
}

/** Kinds of parts that a workbook cannot be read without. */
const NEEDED = /^(?:worksheet|sharedStrings|styles|theme)$/;
/** Kinds of sheets without cells; they are left out. */
const WITHOUT_CELLS = /^(?:chartsheet|dialogsheet)$/;

/** workbook.xml, the sheets it lists in tab order, and the texts and looks that their cells share. */
export function workbookParts(parts: ReadonlyMap<string, Uint8Array>): {
  /** Where workbook.xml is in the file. */
  path: string;
  xml: string;
  sheets: SheetPart[];
  sharedStrings: string;
  styles: string;
} {
  const path = links(parts, '').find(({ kind }) => kind === 'officeDocument')?.part;
  const bytes = path === undefined ? undefined : parts.get(path);
  if (path === undefined || !bytes) throw damaged('it has no workbook part');
  const xml = strFromU8(bytes);
  checkSpelling(path, xml, 'workbook');
  const listed = links(parts, path);
  if (listed.length === 0) throw damaged('its sheets are not linked to it');
  // The library would go on without its texts or styles, as if there were none.
  for (const { kind, part } of listed) if (NEEDED.test(kind)) present(parts, part);
  const byId = new Map(listed.map((link) => [link.id, link]));
  const sheets = elements(xml, 'sheet').map(({ attribute }): SheetPart => {
    const name = attribute('name') ?? '';
    const link = byId.get(attribute('id') ?? '');
    if (!link) throw damaged(`it does not say where its sheet "${name}" is`);
    if (WITHOUT_CELLS.test(link.kind)) return { name, path: undefined, xml: undefined };
    if (link.kind !== 'worksheet') throw damaged(`its sheet "${name}" is of an unknown kind, ${link.kind}`);
    return { name, path: link.part, xml: present(parts, link.part, 'worksheet') };
  });
  checkSheetNames(sheets);
  const shared = (wanted: string, as: PartKind) => {
    const [link, another] = listed.filter(({ kind }) => kind === wanted);
    if (another) throw damaged(`it has its ${wanted} in two places`);
    return link ? present(parts, link.part, as) : '';
  };
  return {
    path,
    xml,
    sheets,
    sharedStrings: shared('sharedStrings', 'texts'),
    styles: shared('styles', 'looks'),
  };
}

/** Sheets are told apart by their names, in capitals or not. */
function checkSheetNames(sheets: readonly SheetPart[]): void {
  const seen = new Set<string>();
  for (const { name } of sheets) {
    if (name === '') throw damaged('one of its sheets has no name');
    if (seen.has(name.toLowerCase())) throw damaged(`two of its sheets are called "${name}"`);
    seen.add(name.toLowerCase());
  }
}

/** The part with the notes of a sheet; undefined if it has none. @throws XlsxError `damaged` if it is lost */
export function notesPart(parts: ReadonlyMap<string, Uint8Array>, sheet: SheetPart): string | undefined {
  if (sheet.path === undefined || sheet.xml === undefined) return undefined;
  const listed = links(parts, sheet.path);
  const [notes, another] = listed.filter(({ kind }) => kind === 'comments');
  if (another) throw damaged(`its sheet "${sheet.name}" has its notes in two places`);
  // Comments are kept in a part that is not read: that it is gone must be said all the same.
  for (const { kind, part } of listed) if (kind === 'threadedComment') present(parts, part);
  if (notes) return present(parts, notes.part, 'notes');
  // Where notes are drawn stands on the sheet itself, and is left when the list of its parts is gone.
  const isDangling = elements(sheet.xml, 'legacyDrawing').some(
    ({ attribute }) => !listed.some(({ id }) => id === attribute('id')),
  );
  if (isDangling) throw damaged(`it does not say where the notes of its sheet "${sheet.name}" are`);
  return undefined;
}

function present(parts: ReadonlyMap<string, Uint8Array>, part: string, kind?: PartKind): string {
  const bytes = parts.get(part);
  if (!bytes) throw damaged(`its part ${part} is missing`);
  const xml = strFromU8(bytes);
  if (kind) checkSpelling(part, xml, kind);
  return xml;
}

export interface Link {
  readonly id: string;
  /** The last word of its type, the same in ordinary and strict workbooks: `worksheet`. */
  readonly kind: string;
  readonly part: string;
  /** As it is written, which for something outside of the file is its address. */
  readonly target: string;
}

/** What a part says it is linked to (ECMA-376-2, 9.3); `''` is the package itself. */
export function links(parts: ReadonlyMap<string, Uint8Array>, of: string): Link[] {
  const at = of.lastIndexOf('/') + 1;
  const folder = of.slice(0, at);
  const path = `${folder}_rels/${of.slice(at)}.rels`;
  const bytes = parts.get(path);
  const list = bytes ? strFromU8(bytes) : '';
  if (bytes) checkSpelling(path, list, 'links');
  return elements(list, 'Relationship').map(({ attribute }) => ({
    id: attribute('Id') ?? '',
    kind: /[^/]*$/.exec(attribute('Type') ?? '')![0],
    part: resolve(folder, attribute('Target') ?? ''),
    target: attribute('Target') ?? '',
  }));
}

function resolve(folder: string, target: string): string {
  if (target.startsWith('/')) return target.slice(1);
  const way = folder.split('/').filter(Boolean);
  for (const step of target.split('/')) {
    if (step === '..') way.pop();
    else if (step !== '.' && step !== '') way.push(step);
  }
  return way.join('/');
}
