import { strFromU8 } from 'fflate';
import { damaged, XlsxError } from './error';
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
  return unzip(bytes, LIMITS, wanted);
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
const NEEDED = /\/(?:worksheet|sharedStrings|styles)$/;

/** workbook.xml and the sheets it lists, in tab order. */
export function workbookParts(parts: ReadonlyMap<string, Uint8Array>): {
  /** Where workbook.xml is in the file. */
  path: string;
  xml: string;
  sheets: SheetPart[];
} {
  const path = [...parts.keys()].find((part) => /(?:^|\/)workbook\.xml$/.test(part));
  if (!path) throw damaged('it has no workbook part');
  const folder = path.slice(0, path.lastIndexOf('/') + 1);
  const xml = strFromU8(parts.get(path)!);
  const links = parts.get(`${folder}_rels/workbook.xml.rels`);
  if (!links) throw damaged('its sheets are not linked to it');
  const targets = new Map(
    elements(strFromU8(links), 'Relationship').map(({ attribute }) => {
      const target = attribute('Target') ?? '';
      const part = target.startsWith('/') ? target.slice(1) : folder + target;
      // The library would go on without its texts or styles, as if there were none.
      if (NEEDED.test(attribute('Type') ?? '') && !parts.has(part))
        throw damaged(`its part ${part} is missing`);
      return [attribute('Id'), part];
    }),
  );
  const sheets = elements(xml, 'sheet').map(({ attribute }) => {
    const part = targets.get(attribute('id')) ?? '';
    const bytes = parts.get(part);
    return { name: attribute('name') ?? '', path: bytes && part, xml: bytes && strFromU8(bytes) };
  });
  return { path, xml, sheets };
}
