import { refersTo } from './address';
import type { Book, BookCell, BookSheet } from './book';
import { IDENTITY, identityFormula, type Plan } from './plan';
import { BUILT_BY } from './program';
import { styleOf } from './style';

/** Gives a plan a sheet name: the sheet as plain data, before anything has been calculated. */
export function realize(plan: Plan, name = plan.title): BookSheet {
  const cells: Record<string, BookCell> = {};
  for (const [at, cell] of Object.entries(plan.cells)) {
    cells[at] = {
      value: cell.value ?? null,
      ...(cell.formula === undefined ? {} : { formula: cell.formula }),
      style: styleOf(cell),
    };
  }
  return {
    name,
    visibility: 'visible',
    cells,
    names: [
      { name: IDENTITY, refersTo: identityFormula(plan), hidden: true, comment: BUILT_BY },
      ...plan.names.map(({ name: label, range, comment }) => ({
        name: label,
        refersTo: refersTo(name, range),
        comment,
      })),
    ],
    validations: plan.validations,
    scales: plan.scales,
    alerts: plan.alerts,
    notes: plan.notes,
    merges: plan.merges,
    columns: plan.columns,
    rows: plan.rows,
    isProtected: true,
    ...(plan.freeze ? { freeze: plan.freeze } : {}),
    ...(plan.filter ? { filter: plan.filter } : {}),
    gridlines: false,
    print: plan.print,
    ...(plan.charts ? { charts: plan.charts } : {}),
  };
}

/** Plans → a workbook, with each sheet's name made unique the way the Excel writer does it. */
export function bookOf(plans: readonly Plan[]): Book {
  const taken: string[] = [];
  const sheets = plans.map((plan) => {
    const name = freeName(plan.title, taken);
    taken.push(name);
    return realize(plan, name);
  });
  return { sheets, names: [], ...(sheets[0] ? { active: sheets[0].name } : {}) };
}

/** Excel's limit for a sheet name, in characters. */
const SHEET_NAME_MAX = 31;

/**
 * A sheet name that Excel takes and nobody has: forbidden characters dropped, cut to 31, numbered if taken.
 * `('Run', ['Run'])` → `Run 2`. Names are compared without regard to case, as Excel does.
 */
export function freeName(wanted: string, taken: readonly string[]): string {
  const clean =
    cut(wanted.replace(/[\\/?*[\]:\p{Cc}]/gu, ' ').replace(/\s+/g, ' '), SHEET_NAME_MAX) || 'Sheet';
  const used = new Set(taken.map((name) => name.toLowerCase()));
  // "History" is reserved by Excel for its change log.
  if (!used.has(clean.toLowerCase()) && clean.toLowerCase() !== 'history') return clean;
  for (let n = 2; ; n++) {
    const suffix = ` ${n}`;
    const name = cut(clean, SHEET_NAME_MAX - suffix.length) + suffix;
    if (!used.has(name.toLowerCase())) return name;
  }
}

/**
 * At most so many characters as Excel counts them (UTF-16 units), without half a pair at the end, and without
 * spaces and apostrophes at either end: Excel takes no name that begins or ends with an apostrophe.
 */
function cut(name: string, length: number): string {
  const bare = name.replace(/^[\s']+/, '');
  return bare
    .slice(0, length)
    .replace(/[\uD800-\uDBFF]$/, '')
    .replace(/[\s']+$/, '');
}
