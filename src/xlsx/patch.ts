import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { cellName } from '../sheets/address';
import { NO_LINE_POINTS } from './charts';

/** What the library's file still lacks; sheets are counted from 0. */
export interface Patches {
  /** Positions, in the order of the file's names, of names that are hidden. */
  readonly hiddenNames: readonly number[];
  readonly activeSheet: number;
  /** For each sheet, the formulas whose cached value is an error. */
  readonly failed: readonly (readonly string[])[];
  /** For each sheet, the length of its notes by address. */
  readonly notes: readonly Readonly<Record<string, number>>[];
  /** True if programs must calculate everything on opening, false if the cached values are good. */
  readonly recalculate: boolean;
}

/** Shown by a file manager as the program that made the file. */
const PROGRAM = 'Light Output Workbook';
/** The calculation engine of Excel since 2019: a file that names an older one is recalculated on opening. */
const CALC_ENGINE = 191029;
/** A note box fits so many characters on a line of its 4 columns' width. */
const NOTE_LINE = 44;
const NOTE_ROWS = 20;

/**
 * Changes the few places of a written file that the library cannot express. Every change looks for what hucre
 * 1.0.0 writes and throws if it is not there, so that another version cannot pass silently.
 */
export function patch(bytes: Uint8Array, patches: Patches): Uint8Array {
  const parts = unzipSync(bytes);
  const edit = (path: string, change: (xml: string) => string) => {
    const part = parts[path];
    if (!part) throw new Error(`the written file has no ${path}`);
    parts[path] = strToU8(change(strFromU8(part)));
  };
  edit('docProps/app.xml', (xml) => must(xml, />hucre</, `>${PROGRAM}<`));
  edit('xl/workbook.xml', (xml) => calculation(hide(xml, patches.hiddenNames), patches.recalculate));
  edit(`xl/worksheets/sheet${patches.activeSheet + 1}.xml`, select);
  patches.failed.forEach((cells, at) => {
    if (cells.length > 0) edit(`xl/worksheets/sheet${at + 1}.xml`, (xml) => markErrors(xml, cells));
  });
  patches.notes.forEach((lengths, at) => {
    if (Object.keys(lengths).length === 0) return;
    edit(`xl/comments${at + 1}.xml`, (xml) => xml.replaceAll('<t>', '<t xml:space="preserve">'));
    edit(`xl/drawings/vmlDrawing${at + 1}.vml`, (xml) => sizeNotes(xml, lengths));
  });
  for (const path of Object.keys(parts)) if (/^xl\/charts\/chart\d+\.xml$/.test(path)) edit(path, pointsOnly);
  return zipSync(parts, { level: 6 });
}

function must(xml: string, found: RegExp, change: string | ((...groups: string[]) => string)): string {
  if (!found.test(xml)) throw new Error(`the written file does not hold ${found.source}`);
  found.lastIndex = 0;
  return typeof change === 'string' ? xml.replace(found, change) : xml.replace(found, change);
}

function hide(xml: string, positions: readonly number[]): string {
  if (positions.length === 0) return xml;
  let at = -1;
  return must(xml, /<definedName /g, (tag) => {
    at++;
    return positions.includes(at) ? `${tag}hidden="1" ` : tag;
  });
}

function calculation(xml: string, recalculate: boolean): string {
  return must(
    xml,
    /<calcPr calcId="0" fullCalcOnLoad="1"\/>/,
    `<calcPr calcId="${CALC_ENGINE}"${recalculate ? ' fullCalcOnLoad="1"' : ''}/>`,
  );
}

/** Without it a program opens the right sheet but groups it with none, and some show the first one. */
function select(xml: string): string {
  return must(xml, /<sheetView /, '<sheetView tabSelected="1" ');
}

function markErrors(xml: string, cells: readonly string[]): string {
  const wanted = new Set(cells);
  return must(xml, /<c r="([A-Z]+[0-9]+)"([^>]*) t="str"/g, (whole, cell = '', rest = '') =>
    wanted.has(cell) ? `<c r="${cell}"${rest} t="e"` : whole,
  );
}

/** A series of points: `charts.ts` gives it the least width and no colour, since the library cannot say "no line". */
function pointsOnly(xml: string): string {
  return xml.replaceAll(`<a:ln w="${NO_LINE_POINTS * 12_700}"/>`, '<a:ln><a:noFill/></a:ln>');
}

/** The library makes every note box 4 rows high and cuts longer notes off. Its anchor starts beside the cell. */
function sizeNotes(xml: string, lengths: Readonly<Record<string, number>>): string {
  return must(xml, /<x:Anchor>(\d+),15,(\d+),2,\d+,31,\d+,4<\/x:Anchor>/g, (_, column = '', row = '') => {
    const length = lengths[cellName(Number(row), Number(column) - 1)] ?? 0;
    const last = Number(row) + Math.min(NOTE_ROWS, Math.ceil(length / NOTE_LINE) + 2);
    return `<x:Anchor>${column},15,${row},2,${Number(column) + 4},31,${last},4</x:Anchor>`;
  });
}
