import { cellsOf } from '../../src/sheets/address';
import type { BookCell, BookSheet, CellValue, Validation } from '../../src/sheets/book';

/** One small change of a sheet, and where it must be reported. */
export interface Change {
  readonly what:
    | 'value'
    | 'result'
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
  readonly apply: (sheet: Draft) => void;
}

/** A sheet's copy that changes are made on. */
interface Draft extends Omit<BookSheet, 'cells' | 'names' | 'validations' | 'isProtected'> {
  readonly cells: Record<string, BookCell>;
  names: BookSheet['names'];
  validations: BookSheet['validations'];
  isProtected: boolean;
}

export function changed(sheet: BookSheet, changes: readonly Change[]): BookSheet {
  const draft = { ...sheet, cells: { ...sheet.cells } };
  for (const { apply } of changes) apply(draft);
  return draft;
}

/** Every change of one thing that can be made to a sheet: its cells in turn, its names, its input rules. */
export function* changesOf(sheet: BookSheet): Generator<Change> {
  const spilled = new Set(Object.values(sheet.cells).flatMap(({ spill }) => (spill ? cellsOf(spill) : [])));
  // A batch has its readings, its function's table and its set-up beside what is printed.
  const beside = isBatch(sheet) ? Object.keys(sheet.cells) : [];
  for (const at of new Set([...cellsOf(sheet.print!.area), ...beside]))
    yield* cellChanges(at, sheet.cells[at] ?? { value: null }, spilled.has(at));
  for (const defined of sheet.names) {
    if (/^LightS(eal|heet)/.test(defined.name)) continue;
    const without = (names: BookSheet['names']) => names.filter(({ name }) => name !== defined.name);
    const name = { what: 'name', key: defined.name } as const;
    yield {
      ...name,
      apply: (draft) => {
        draft.names = without(draft.names);
      },
    };
    const refersTo = defined.refersTo.replace(/\$(\d+)$/, (_, row: string) => `$${Number(row) + 1}`);
    yield {
      ...name,
      apply: (draft) => {
        draft.names = [...without(draft.names), { ...defined, refersTo }];
      },
    };
  }
  for (const rule of sheet.validations) {
    const without = (rules: BookSheet['validations']) => rules.filter((each) => each !== rule);
    const change = { what: 'rule', key: cellsOf(rule.range)[0]! } as const;
    yield {
      ...change,
      apply: (draft) => {
        draft.validations = without(draft.validations);
      },
    };
    yield {
      ...change,
      apply: (draft) => {
        draft.validations = [...without(draft.validations), softer(rule)];
      },
    };
  }
  yield {
    what: 'protection',
    key: 'protection',
    apply: (draft) => {
      draft.isProtected = false;
    },
  };
}

function isBatch({ names }: BookSheet): boolean {
  return names.some(({ name }) => name === 'FunctionTable');
}

function* cellChanges(at: string, cell: BookCell, isSpilled: boolean): Generator<Change> {
  const { value, formula, style } = cell;
  const put =
    (next: BookCell): Change['apply'] =>
    ({ cells }) => {
      cells[at] = next;
    };
  const isEmpty = formula === undefined && (value === null || value === '');
  // What a function fills beside its own cell is a result, though an empty one.
  const isResult = formula !== undefined || isSpilled;
  const what = isResult ? 'result' : isEmpty ? 'added' : 'value';
  yield { what, key: at, apply: put({ ...cell, value: other(value) }) };
  if (isEmpty) return;
  yield { what: 'formula', key: at, apply: put({ ...cell, formula: `${formula ?? '=1'}+0` }) };
  yield {
    what: isResult && formula === undefined ? 'result' : 'removed',
    key: at,
    apply: put({ ...(style ? { style } : {}), value: null }),
  };
  // The constant that shows the same: nobody sees it.
  if (formula !== undefined) yield { what: 'formula', key: at, apply: put({ ...cell, formula: undefined }) };
  yield {
    what: 'lock',
    key: at,
    apply: put({ ...cell, style: { ...style, locked: style?.locked === false } }),
  };
  if (typeof value !== 'number') return;
  const format = style?.format === '0' ? '0.0' : '0';
  yield { what: 'format', key: at, apply: put({ ...cell, style: { ...style, format } }) };
}

function other(value: CellValue): CellValue {
  // Seven in the seventh digit, a change no eye would catch; of tiny results more than what is sealed as 0.
  if (typeof value === 'number') return value === 0 ? 0.0001 : value + Math.max(7e-7 * Math.abs(value), 1e-9);
  if (typeof value === 'string' && value !== '') return `${value}.`;
  return 'x';
}

function softer(rule: Validation): Validation {
  return { ...rule, rule: { type: 'length', max: 199 } };
}
