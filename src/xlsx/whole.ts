import { contains, isAddress, rectOf } from '../sheets/address';
import { FILLED, READ_AREA } from './bounds';
import { damaged, XlsxError } from './error';
import type { SheetPart } from './parts';
import { dayOf, type StoredCell, storedCells } from './stored';

/*
 * The library goes on where a file points at something that is not there: a text, a look, the formula that others
 * share. The cell would come out empty or as a plain number, and nobody would know. So this is looked for first.
 */

/** How much there is that cells may point at. */
export interface Pools {
  readonly texts: number;
  readonly looks: number;
}

export function poolsOf(sharedStrings: string, styles: string): Pools {
  const looks = /<(?:[\w.-]+:)?cellXfs[\s>][\s\S]*?<\/(?:[\w.-]+:)?cellXfs\s*>/.exec(styles)?.[0] ?? '';
  return { texts: count(sharedStrings, 'si'), looks: count(looks, 'xf') };
}

function count(xml: string, element: string): number {
  return [...xml.matchAll(new RegExp(`<(?:[\\w.-]+:)?${element}[\\s/>]`, 'g'))].length;
}

/** Refuses sheets of which less would be read than the file says. @throws XlsxError `damaged` */
export function checkWhole(sheets: readonly SheetPart[], pools: Pools): void {
  let filled = 0;
  for (const { name, xml = '' } of sheets) {
    const seen = new Set<string>();
    const masters = new Set<string>();
    const followers: { at: string; shared: string }[] = [];
    for (const cell of storedCells(xml)) {
      const { at, formula } = cell;
      const fault = seen.has(at) ? 'is there twice' : faultOf(cell, pools);
      if (fault !== undefined) throw damaged(`cell ${at} of the sheet "${name}" ${fault}`);
      seen.add(at);
      if (formula?.type === 'array') filled += areaOf(name, at, formula.area);
      if (filled > FILLED) throw tooFar(`The workbook has tables that fill more than ${FILLED} cells.`);
      if (formula?.type !== 'shared' || formula.shared === undefined) continue;
      if (formula.text === '') followers.push({ at, shared: formula.shared });
      else masters.add(formula.shared);
    }
    const lost = followers.find(({ shared }) => !masters.has(shared));
    if (lost) {
      throw damaged(
        `cell ${lost.at} of the sheet "${name}" shares the formula of another cell, which is missing`,
      );
    }
  }
}

/** How many cells a table of values says that it fills. A few letters may say all of a sheet. */
function areaOf(sheet: string, at: string, area = at): number {
  if (!isAddress(area))
    throw damaged(`cell ${at} of the sheet "${sheet}" fills "${area}", which is no range`);
  const rect = rectOf(area);
  if (!contains(rectOf(READ_AREA), rect))
    throw tooFar(`The table in ${at} of the sheet "${sheet}" fills ${area}, beyond ${READ_AREA}.`);
  return rect.rows * rect.columns;
}

function tooFar(message: string): XlsxError {
  return new XlsxError('big', message, 'Save the sheets you need in a file of their own.');
}

const NUMBER = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?\s*$/;
const WHOLE = /^\s*\d+\s*$/;

/** What of a cell would be lost, as the end of a sentence; undefined if nothing. */
function faultOf(cell: StoredCell, { texts, looks }: Pools): string | undefined {
  const { type, style, value = '', hasText, formula } = cell;
  const holds = `but holds "${value.slice(0, 40)}"`;
  // The first look is the default one, which a file without looks has too.
  if (style !== undefined && !(WHOLE.test(style) && (Number(style) === 0 || Number(style) < looks)))
    return `has the format number ${style}, and the file has ${looks}`;
  if (formula?.type === 'shared' ? formula.shared === undefined : formula?.text === '') {
    // A data table has no text; what it gives is read as values.
    if (formula?.type !== 'dataTable') return 'has an empty formula';
  }
  if (type === 'inlineStr') return value !== '' && !hasText ? `is a text ${holds} as a number` : undefined;
  if (type === 'str' || type === 'e') return undefined;
  if (!TYPES.has(type)) return `is of an unknown type, "${type}"`;
  if (value === '') return undefined;
  if (type === 's')
    return WHOLE.test(value) && Number(value) < texts
      ? undefined
      : `has the text number ${value.slice(0, 40)}, and the file has ${texts}`;
  if (type === 'b') return /^(?:0|1|true|false)$/i.test(value) ? undefined : `is true or false ${holds}`;
  if (type === 'd') return dayOf(value) === undefined ? `is a date ${holds}` : undefined;
  return NUMBER.test(value) && Number.isFinite(Number(value)) ? undefined : `is a number ${holds}`;
}

/** Types of cells that are looked at above (ECMA-376-1, 18.18.11). */
const TYPES: ReadonlySet<string> = new Set(['n', 's', 'b', 'd']);
