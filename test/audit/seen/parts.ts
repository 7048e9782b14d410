import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { bytes, result } from './sealedsheet';

export type Parts = Record<string, string>;
export interface Made {
  readonly what: string;
  readonly change: (parts: Parts) => void;
  /** What the seal names, as `group key`. */
  readonly seal?: RegExp;
  /** What the check of the file says. */
  readonly check?: RegExp;
  readonly refused?: RegExp;
  /** Why the seal itself does not hold. */
  readonly damaged?: RegExp;
  /** Why neither looks at it. */
  readonly outside?: string;
}

export const SHEET = 'xl/worksheets/sheet1.xml';
export const WORKBOOK = 'xl/workbook.xml';
export const STYLES = 'xl/styles.xml';
export const put = (parts: Parts, path: string, from: string | RegExp, to: string) => {
  const before = parts[path]!;
  parts[path] = before.replace(from, () => to);
  if (parts[path] === before) throw new Error(`${path} has no ${from}`);
};
/** Puts an element in its place: behind the last of those that come before it. */
export const after = (parts: Parts, element: string, behind: RegExp) => {
  const all = [...parts[SHEET]!.matchAll(behind)];
  const last = all.at(-1)!;
  const at = last.index + last[0].length;
  parts[SHEET] = parts[SHEET]!.slice(0, at) + element + parts[SHEET]!.slice(at);
};
export const rowOf = (at: string) => /\d+/.exec(at)![0];
export const cell = (at: string) => new RegExp(`<c r="${at}"[^>]*?(?:/>|>[\\s\\S]*?</c>)`);
/** A look of its own for one cell: that of another, with one thing changed. */
export const restyle = (parts: Parts, at: string, change: (xf: string, parts: Parts) => string) => {
  const found = cell(at).exec(parts[SHEET]!)![0];
  const style = Number(/ s="(\d+)"/.exec(found)?.[1] ?? 0);
  const list = /<cellXfs[^>]*>([\s\S]*?)<\/cellXfs>/.exec(parts[STYLES]!)![1]!;
  const xfs = [...list.matchAll(/<xf\s[^>]*?\/>|<xf\s[\s\S]*?<\/xf>/g)].map(([xf]) => xf);
  put(parts, STYLES, '</cellXfs>', `${change(xfs[style]!, parts)}</cellXfs>`);
  put(parts, SHEET, found, found.replace(/ s="\d+"/, '').replace('<c ', `<c s="${xfs.length}" `));
};
/** Another font or fill in the list of its kind, and the number it has there. */
export const added = (parts: Parts, list: 'fonts' | 'fills', item: string): number => {
  const all = new RegExp(`<${list}[^>]*>([\\s\\S]*?)</${list}>`).exec(parts[STYLES]!)![1]!;
  const one = list.slice(0, -1);
  const count = [...all.matchAll(new RegExp(`<${one}[\\s>]`, 'g'))].length;
  put(parts, STYLES, `</${list}>`, `${item}</${list}>`);
  return count;
};
export const font = (inner: string) => (parts: Parts) =>
  restyle(parts, result, (xf) =>
    xf.replace(/fontId="\d+"/, `fontId="${added(parts, 'fonts', `<font>${inner}</font>`)}"`),
  );
export const CALIBRI = '<name val="Calibri"/>';
const FORMATS =
  /<\/conditionalFormatting>|<mergeCells[\s\S]*?<\/mergeCells>|<sheetProtection[^>]*\/>|<\/sheetData>/g;
export const formatting = (rule: string) => (parts: Parts) =>
  after(parts, `<conditionalFormatting sqref="${result}">${rule}</conditionalFormatting>`, FORMATS);
export const dxf = (inner: string) => (parts: Parts) => {
  put(parts, STYLES, '</dxfs>', `<dxf>${inner}</dxf></dxfs>`);
};
export const drawing = (inner: string) => (parts: Parts) => {
  const ns = 'http://schemas.openxmlformats.org';
  parts['xl/drawings/drawing9.xml'] =
    `<xdr:wsDr xmlns:xdr="${ns}/drawingml/2006/spreadsheetDrawing"><xdr:twoCellAnchor><xdr:from><xdr:col>1</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>4</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:to><xdr:col>3</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>9</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to>${inner}<xdr:clientData/></xdr:twoCellAnchor></xdr:wsDr>`;
  put(
    parts,
    'xl/worksheets/_rels/sheet1.xml.rels',
    '</Relationships>',
    `<Relationship Id="rId99" Type="${ns}/officeDocument/2006/relationships/drawing" Target="../drawings/drawing9.xml"/></Relationships>`,
  );
};
const RELATIONSHIP = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const related = (p: Parts, attributes: string) =>
  put(
    p,
    'xl/worksheets/_rels/sheet1.xml.rels',
    '</Relationships>',
    `<Relationship ${attributes}/></Relationships>`,
  );
/** A link on cells, by its attributes; with an address it leads out of the workbook. */
export const linked = (attributes: string, outside?: string) => (parts: Parts) => {
  const namespace = `xmlns:r="${RELATIONSHIP}"`;
  const link = `<hyperlinks ${namespace}><hyperlink ${attributes}/></hyperlinks>`;
  put(parts, SHEET, /(?=<pageMargins)/, link);
  if (outside !== undefined)
    related(parts, `Id="rId98" Type="${RELATIONSHIP}/hyperlink" Target="${outside}" TargetMode="External"`);
};
/** A comment as newer programs keep them, beside the sheet (MS-XLSX, 2.6.205). */
export const commented = (at: string, text: string) => (parts: Parts) => {
  const [main, office] = ['http://schemas.microsoft.com/office', '2017/10/relationships/threadedComment'];
  parts['xl/threadedComments/threadedComment1.xml'] =
    `<ThreadedComments xmlns="${main}/spreadsheetml/2018/threadedcomments"><threadedComment ref="${at}" dT="2026-11-30T00:00:00" personId="{A}" id="{B}"><text>${text}</text></threadedComment></ThreadedComments>`;
  related(parts, `Id="rId97" Type="${main}/${office}" Target="../threadedComments/threadedComment1.xml"`);
};
export const calculation = (attributes: string) => (parts: Parts) => {
  put(parts, WORKBOOK, '<calcPr ', `<calcPr ${attributes} `);
};
export const workbookName = (name: string, refersTo: string) => (parts: Parts) => {
  put(
    parts,
    WORKBOOK,
    '</definedNames>',
    `<definedName name="${name}">${refersTo}</definedName></definedNames>`,
  );
};
export const value = (at: string, now: string) => (parts: Parts) => {
  const found = cell(at).exec(parts[SHEET]!)![0];
  put(parts, SHEET, found, found.replace(/<v>[^<]*<\/v>/, `<v>${now}</v>`));
};

const XF = (change: (xf: string) => string) => (p: Parts) => restyle(p, result, (xf) => change(xf));
export const aligned = (attributes: string) =>
  XF((xf) => xf.replace(/\s*(?:\/>|>[\s\S]*)$/, `><alignment ${attributes}/></xf>`));
export const formatted = (at: () => string, code: string) => (p: Parts) =>
  restyle(p, at(), (xf, parts) => {
    put(
      parts,
      STYLES,
      /<numFmts count="\d+">/,
      `<numFmts count="99"><numFmt numFmtId="990" formatCode="${code}"/>`,
    );
    return xf.replace(/numFmtId="\d+"/, 'numFmtId="990"');
  });
export const locking = (at: () => string, locked: string) => (p: Parts) =>
  restyle(p, at(), (xf) =>
    xf
      .replace(/ applyProtection="[^"]*"/, '')
      .replace(/\s*(?:\/>|>[\s\S]*)$/, ` applyProtection="1"><protection locked="${locked}"/></xf>`),
  );
export const inCell = (at: () => string, from: RegExp, to: string) => (p: Parts) => {
  const found = cell(at()).exec(p[SHEET]!)![0];
  const now = found.replace(from, () => to);
  if (now === found) throw new Error(`${found} has no ${from}`);
  put(p, SHEET, found, now);
};
export const view = (attributes: string) => (p: Parts) =>
  put(p, SHEET, '<sheetView ', `<sheetView ${attributes} `);
export const named = (name: string, change: (whole: string) => string) => (p: Parts) => {
  const whole = new RegExp(`<definedName [^>]*name="${name}"[\\s\\S]*?</definedName>`).exec(p[WORKBOOK]!)![0];
  put(p, WORKBOOK, whole, change(whole));
};

/** The sealed workbook's file with one change made in it. */
export function changedFile({ change }: Pick<Made, 'change'>): Uint8Array {
  const parts: Parts = Object.fromEntries(
    Object.entries(unzipSync(bytes)).map(([path, part]) => [path, strFromU8(part)]),
  );
  change(parts);
  return zipSync(Object.fromEntries(Object.entries(parts).map(([path, text]) => [path, strToU8(text)])), {
    level: 0,
  });
}
