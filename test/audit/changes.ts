import { cellsOf } from '../../src/sheets/address';
import type { BookCell, BookSheet, CellValue, Validation } from '../../src/sheets/book';

/** One small change of a sheet, and where it must be reported. */
export interface Change {
  readonly what:
    | 'value'
    | 'formula'
    | 'format'
    | 'lock'
    | 'name'
    | 'rule'
    | 'protection'
    | 'added'
    | 'removed';
  /** Cell or name. */
  readonly key: string;
  readonly sheet: BookSheet;
}

/** Every change of one thing that can be made to a sheet: its cells in turn, its names, its input rules. */
export function* changesOf(sheet: BookSheet): Generator<Change> {
  const put = (at: string, cell: BookCell): BookSheet => ({
    ...sheet,
    cells: { ...sheet.cells, [at]: cell },
  });
  const area = sheet.print!.area;
  for (const at of cellsOf(area)) {
    const cell = sheet.cells[at] ?? { value: null };
    const isEmpty = cell.formula === undefined && (cell.value === null || cell.value === '');
    const what = isEmpty ? 'added' : 'value';
    yield { what, key: at, sheet: put(at, { ...cell, value: other(cell.value) }) };
    if (isEmpty) continue;
    yield { what: 'formula', key: at, sheet: put(at, { ...cell, formula: `${cell.formula ?? '=1'}+0` }) };
    yield {
      what: 'removed',
      key: at,
      sheet: put(at, { ...(cell.style ? { style: cell.style } : {}), value: null }),
    };
    if (cell.formula !== undefined) {
      // The constant that shows the same: nobody sees it.
      yield { what: 'formula', key: at, sheet: put(at, { ...cell, formula: undefined }) };
    }
    yield {
      what: 'lock',
      key: at,
      sheet: put(at, { ...cell, style: { ...cell.style, locked: cell.style?.locked === false } }),
    };
    if (typeof cell.value === 'number') {
      const format = cell.style?.format === '0' ? '0.0' : '0';
      yield { what: 'format', key: at, sheet: put(at, { ...cell, style: { ...cell.style, format } }) };
    }
  }
  for (const [i, defined] of sheet.names.entries()) {
    if (/^LightS(eal|heet)/.test(defined.name)) continue;
    const others = sheet.names.filter((_, k) => k !== i);
    yield { what: 'name', key: defined.name, sheet: { ...sheet, names: others } };
    const refersTo = defined.refersTo.replace(/\$(\d+)$/, (_, row: string) => `$${Number(row) + 1}`);
    yield {
      what: 'name',
      key: defined.name,
      sheet: { ...sheet, names: [...others, { ...defined, refersTo }] },
    };
  }
  for (const [i, rule] of sheet.validations.entries()) {
    const others = sheet.validations.filter((_, k) => k !== i);
    const key = cellsOf(rule.range)[0]!;
    yield { what: 'rule', key, sheet: { ...sheet, validations: others } };
    yield { what: 'rule', key, sheet: { ...sheet, validations: [...others, softer(rule)] } };
  }
  yield { what: 'protection', key: 'protection', sheet: { ...sheet, isProtected: false } };
}

function other(value: CellValue): CellValue {
  // Seven in the sixth digit: a change no eye would catch.
  if (typeof value === 'number') return value === 0 ? 0.0001 : value * 1.0000007;
  if (typeof value === 'string' && value !== '') return `${value}.`;
  return 'x';
}

function softer(rule: Validation): Validation {
  return { ...rule, rule: { type: 'length', max: 200 } };
}
