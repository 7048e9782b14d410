import { cellName, columnIndex } from '../sheets/address';

/** A cell as it stands in a worksheet's XML, before anybody makes sense of it. */
export interface StoredCell {
  readonly at: string;
  /** ST_CellType (ECMA-376-1, 18.18.11); `n` where the file says nothing. */
  readonly type: string;
  readonly style: string | undefined;
  readonly value: string | undefined;
  readonly formula: StoredFormula | undefined;
  /** Whether it has a text of its own (`<is>`) and not only the number of a shared one. */
  readonly hasText: boolean;
}
interface StoredFormula {
  readonly type: string | undefined;
  /** Which shared formula it is or follows. */
  readonly shared: string | undefined;
  /** The cells that a table of values fills, as the file says it. */
  readonly area: string | undefined;
  readonly text: string;
}

/** Tags of rows and cells, with the text after them. Stops at any "<", so that a flood of open tags costs no more. */
const TAG =
  /<(\/?)(?:[\w.-]+:)?(row|c|v|f|is)(?=[\s/>])((?:[^<>"'/]|\/(?!>)|"[^"<]*"|'[^'<]*')*)(\/?)>(?:<!\[CDATA\[([\s\S]*?)\]\]>|([^<]*))/g;
const ATTRIBUTE = /([\w.:-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g;
const PLACE = /^([A-Za-z]+)([0-9]+)$/;

/** Every cell of a worksheet, in the file's order. One that does not say where it is follows the one before. */
export function* storedCells(worksheetXml: string): Generator<StoredCell> {
  const xml = worksheetXml.includes('<!--') ? worksheetXml.replace(/<!--[\s\S]*?-->/g, '') : worksheetXml;
  let [row, column] = [0, 0];
  let cell: { -readonly [Key in keyof StoredCell]: StoredCell[Key] } | undefined;
  for (const [, slash, tag, attributes = '', empty, data, plain] of xml.matchAll(TAG)) {
    const text = data ?? plain ?? '';
    if (slash) {
      if (tag === 'c' && cell) {
        yield cell;
        cell = undefined;
      }
    } else if (tag === 'row') {
      row = Number(attributesOf(attributes).get('r')) || row + 1;
      column = 0;
    } else if (tag === 'c') {
      const said = cellAttributes(attributes);
      const place = PLACE.exec(said.r ?? '');
      if (place) [column, row] = [columnIndex(place[1]!.toUpperCase()) + 1, Number(place[2])];
      else column++;
      const next = {
        at: cellName(row - 1, column - 1),
        type: said.t ?? 'n',
        style: said.s,
        value: undefined,
        formula: undefined,
        hasText: false,
      };
      if (empty) yield next;
      else cell = next;
    } else if (cell && tag === 'v') cell.value = text;
    else if (cell && tag === 'is') cell.hasText = true;
    else if (cell && tag === 'f') {
      const said = attributesOf(attributes);
      cell.formula = { type: said.get('t'), shared: said.get('si'), area: said.get('ref'), text };
    }
  }
}

/** As most programs write them; three times as fast as the careful way. */
const USUAL = /^ r="([A-Z]+[0-9]+)"(?: s="([0-9]+)")?(?: t="([a-zA-Z]+)")?\s*$/;

function cellAttributes(text: string): {
  r?: string | undefined;
  s?: string | undefined;
  t?: string | undefined;
} {
  const usual = USUAL.exec(text);
  if (usual) return { r: usual[1], s: usual[2], t: usual[3] };
  const said = attributesOf(text);
  return { r: said.get('r'), s: said.get('s'), t: said.get('t') };
}

function attributesOf(text: string): Map<string, string> {
  return new Map(
    [...text.matchAll(ATTRIBUTE)].map(([, name = '', double, single]) => [name, double ?? single ?? '']),
  );
}

/** Numbers and dates of a worksheet as they stand in the file, by address. */
export interface StoredNumbers {
  /**
   * The library turns numbers in cells with a date format into Date objects, which cuts them to milliseconds and
   * loses those that are no date.
   */
  readonly numbers: ReadonlyMap<string, number>;
  /** Days from cells of the type of dates, which only strict workbooks have; the library takes them for texts. */
  readonly dates: ReadonlyMap<string, number>;
}

export function storedNumbers(worksheetXml: string): StoredNumbers {
  const [numbers, dates] = [new Map<string, number>(), new Map<string, number>()];
  for (const { at, type, value } of storedCells(worksheetXml)) {
    if (value === undefined || value === '') continue;
    if (type === 'n') numbers.set(at, Number(value));
    else if (type === 'd') dates.set(at, dayOf(value)!);
  }
  return { numbers, dates };
}

const DAY = 86_400_000;
const ISO_DATE = /^(\d{4})-(\d\d)-(\d\d)(?:T(\d\d):(\d\d)(?::(\d\d(?:\.\d+)?))?Z?)?$/;

/** An ISO 8601 date → the day of the spreadsheet calendar; undefined for anything else. */
export function dayOf(text: string): number | undefined {
  const [whole, year, month, day, hours = 0, minutes = 0, seconds = 0] = ISO_DATE.exec(text.trim()) ?? [];
  if (whole === undefined) return undefined;
  const date = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day)));
  if (date.toISOString().slice(0, 10) !== `${year}-${month}-${day}`) return undefined;
  const days = (date.getTime() - Date.UTC(1899, 11, 30)) / DAY;
  // The calendar has a 29 February 1900 that never was, day 60 (ECMA-376-1, 18.17.4.1).
  const counted = days <= 60 ? days - 1 : days;
  return counted + (Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds)) / 86_400;
}
