import { SaxesParser, type SaxesTagNS } from 'saxes';
import { damaged } from './error';

/*
 * A file may be spelt so that two programs read two workbooks out of it: an element of a foreign namespace with a name
 * that we know, a second list of sheets, a link that is there twice, a remark in the middle of a number. What this
 * program shows, seals and checks must be what a spreadsheet program shows. So whatever is not at its one place, in
 * its own namespace, is refused before anything is read.
 */

export type PartKind = 'workbook' | 'worksheet' | 'texts' | 'looks' | 'notes' | 'links';

const SHEETS = [
  'http://schemas.openxmlformats.org/spreadsheetml/2006/main',
  'http://purl.oclc.org/ooxml/spreadsheetml/main',
];
const LINKS = [
  'http://schemas.openxmlformats.org/officeDocument/2006/relationships',
  'http://purl.oclc.org/ooxml/officeDocument/relationships',
];
const PACKAGE = ['http://schemas.openxmlformats.org/package/2006/relationships'];

interface Grammar {
  readonly root: string;
  readonly namespaces: readonly string[];
  /** Where elements that are read stand, below the root (ECMA-376-1, 18.2 to 18.8). */
  readonly places: readonly string[];
  /** Of these, those that their parent has once. */
  readonly once: readonly string[];
}

const GRAMMARS: Readonly<Record<PartKind, Grammar>> = {
  workbook: {
    root: 'workbook',
    namespaces: SHEETS,
    places: [
      'workbookPr',
      'bookViews',
      'bookViews/workbookView',
      'sheets',
      'sheets/sheet',
      'definedNames',
      'definedNames/definedName',
      'calcPr',
    ],
    once: ['workbookPr', 'bookViews', 'sheets', 'definedNames', 'calcPr'],
  },
  worksheet: {
    root: 'worksheet',
    namespaces: SHEETS,
    places: [
      'sheetPr',
      'sheetViews',
      'sheetViews/sheetView',
      'cols',
      'cols/col',
      'sheetData',
      'sheetData/row',
      'sheetData/row/c',
      'sheetData/row/c/f',
      'sheetData/row/c/v',
      'sheetData/row/c/is',
      'sheetData/row/c/is/t',
      'sheetData/row/c/is/r',
      'sheetData/row/c/is/r/t',
      'sheetProtection',
      'autoFilter',
      'customSheetViews/customSheetView/autoFilter',
      'mergeCells',
      'mergeCells/mergeCell',
      'conditionalFormatting',
      'conditionalFormatting/cfRule',
      'conditionalFormatting/cfRule/formula',
      'dataValidations',
      'dataValidations/dataValidation',
      'dataValidations/dataValidation/formula1',
      'dataValidations/dataValidation/formula2',
      'legacyDrawing',
    ],
    once: [
      'sheetPr',
      'sheetViews',
      'cols',
      'sheetData',
      'sheetData/row/c/f',
      'sheetData/row/c/v',
      'sheetData/row/c/is',
      'sheetProtection',
      'autoFilter',
      'mergeCells',
      'dataValidations',
      'legacyDrawing',
    ],
  },
  texts: {
    root: 'sst',
    namespaces: SHEETS,
    places: ['si', 'si/t', 'si/r', 'si/r/t'],
    once: ['si/t'],
  },
  looks: {
    root: 'styleSheet',
    namespaces: SHEETS,
    places: ['numFmts', 'numFmts/numFmt', 'dxfs/dxf/numFmt', 'cellXfs', 'cellXfs/xf', 'cellStyleXfs/xf'],
    once: ['numFmts', 'cellXfs'],
  },
  notes: {
    root: 'comments',
    namespaces: SHEETS,
    places: ['commentList', 'commentList/comment', 'commentList/comment/text'],
    once: ['commentList', 'commentList/comment/text'],
  },
  links: { root: 'Relationships', namespaces: PACKAGE, places: ['Relationship'], once: [] },
};

/**
 * Elements of other namespaces that go by a name we know and are nothing of ours, as programs write them: the corners
 * of a drawn control, and what extensions of a later program version say again (MS-XLSX, 2.2).
 */
const DRAWN =
  /^http:\/\/(?:schemas\.openxmlformats\.org|purl\.oclc\.org\/ooxml)\/drawingml(?:\/2006)?\/spreadsheetDrawing$/;
const NEWER = /^http:\/\/schemas\.microsoft\.com\/office\/(?:spreadsheetml|excel)\//;
const NEWER_NAMES: ReadonlySet<string> = new Set([
  'f',
  'conditionalFormatting',
  'cfRule',
  'dataValidations',
  'dataValidation',
  'formula1',
  'formula2',
  'workbookPr',
  'bookViews',
  'workbookView',
  'calcPr',
  'autoFilter',
]);

/** Attributes that are read; of another namespace they would be taken for ours. */
const ATTRIBUTES: ReadonlySet<string> = new Set(
  'r s t si ref name sheetId id localSheetId hidden state function vbProcedure min max width ht sqref type operator numFmtId formatCode sheet Id Type Target'.split(
    ' ',
  ),
);
/** Elements whose text is read: nothing may stand in it but text. */
const TEXTS: ReadonlySet<string> = new Set(['v', 'f', 't', 'definedName', 'formula', 'formula1', 'formula2']);
/** No part of a workbook is nested so deep. */
const DEPTH = 64;

interface Open {
  /** Its place below the root, `''` for the root. */
  readonly place: string;
  readonly local: string;
  readonly isOwn: boolean;
  readonly children: Set<string>;
}

/** Refuses a part that two programs could read in two ways. @throws XlsxError `damaged` */
export function checkSpelling(path: string, xml: string, kind: PartKind): void {
  const { root, namespaces, places, once } = GRAMMARS[kind];
  const known = new Set(places.map((place) => place.slice(place.lastIndexOf('/') + 1)));
  const allowed: ReadonlySet<string> = new Set(places);
  const single: ReadonlySet<string> = new Set(once);
  const open: Open[] = [];
  const ids = new Set<string>();
  const refuse = (why: string): never => {
    throw damaged(`its part ${path} ${why}`);
  };

  const enter = (tag: SaxesTagNS) => {
    const { local, uri, name } = tag;
    const parent = open.at(-1);
    const isOwn = namespaces.includes(uri);
    if (!parent) {
      if (local !== root || !isOwn) refuse(`begins with <${name}> of the namespace "${uri}", not <${root}>`);
      open.push({ place: '', local, isOwn, children: new Set() });
      return;
    }
    if (open.length >= DEPTH) refuse('is nested too deep');
    const place = parent.place === '' ? local : `${parent.place}/${local}`;
    const isHere = isOwn && parent.isOwn && allowed.has(place);
    if (!isHere && known.has(local) && !isHarmless(tag, open)) {
      refuse(
        isOwn
          ? `has <${name}> where none belongs, in ${parent.place || root}`
          : `has <${name}> of the foreign namespace "${uri}"`,
      );
    }
    if (kind === 'links' && !isHere) refuse(`has <${name}>, which is no link`);
    if (isHere && single.has(place) && parent.children.has(local))
      refuse(`has <${name}> twice in ${parent.local}`);
    parent.children.add(local);
    if (isHere) checkAttributes(tag);
    if (isHere && kind === 'links') {
      const id = tag.attributes.Id?.value ?? '';
      if (ids.has(id)) refuse(`has two links of the id "${id}"`);
      ids.add(id);
    }
    open.push({ place, local, isOwn, children: new Set() });
  };

  const checkAttributes = ({ local: element, attributes }: SaxesTagNS) => {
    for (const { name, local, prefix, uri } of Object.values(attributes)) {
      if (prefix === 'xmlns' || name === 'xmlns' || !ATTRIBUTES.has(local)) continue;
      const isLink = local === 'id' && (element === 'sheet' || element === 'legacyDrawing');
      if (isLink ? !LINKS.includes(uri) : prefix !== '')
        refuse(`has the attribute ${name} of the foreign namespace "${uri}" in <${element}>`);
    }
  };

  const inText = (what: string) => {
    const at = open.at(-1);
    if (at && TEXTS.has(at.local)) refuse(`has ${what} inside <${at.local}>`);
  };

  const parser = new SaxesParser({ xmlns: true, position: false });
  parser.on('error', (error) => refuse(`is no well-formed XML (${error.message})`));
  parser.on('doctype', () => refuse('has a document type of its own'));
  parser.on('opentag', enter);
  parser.on('closetag', () => {
    open.pop();
  });
  parser.on('comment', () => inText('a remark'));
  parser.on('processinginstruction', () => inText('an instruction'));
  parser.write(xml).close();
}

/** Whether an element that is called like one of ours cannot be taken for it. */
function isHarmless({ local, uri }: SaxesTagNS, open: readonly Open[]): boolean {
  if (DRAWN.test(uri)) return local === 'row';
  return NEWER.test(uri) && NEWER_NAMES.has(local) && open.some(({ local: outer }) => outer === 'extLst');
}
