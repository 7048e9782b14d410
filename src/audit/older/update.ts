import type { Book, BookCell } from '../../sheets/book';
import { type Plan, RECORD_KINDS } from '../../sheets/plan';
import { PROGRAM } from '../../sheets/program';
import { freeName, realize } from '../../sheets/realize';
import { type Moment, reportPlan } from '../../sheets/report';
import { calculateBook } from '../formula/calculate';
import { foreignSheets } from '../kinds/links';
import { inWords } from '../number';
import { isSealed } from '../seal/seal';
import { isOlder } from '../today';
import { type SheetView, sheetOf, viewOf } from '../view';
import { differencesOf, isAltered } from './compare';
import { rebuilt } from './renew';
import { renamedLinks, retarget } from './retarget';

/** A sheet of today's layout for one of before, and what differs between them. */
export interface UpToDate {
  readonly plan: Plan;
  /** What it will be called. */
  readonly name: string;
  /** A table of what differs and why, as a sheet of its own. */
  readonly table: Plan;
  /** Figures that differ. */
  readonly differences: readonly DifferingFigure[];
  /** Links of other sheets to the older one, as they would go to the new one. */
  readonly links: readonly MovedLinks[];
}

/** A figure of the older sheet beside that of the new one, in words. */
export interface DifferingFigure {
  readonly label: string;
  /** On the older sheet, and on the new one. */
  readonly at: string;
  readonly to: string;
  readonly was: string;
  readonly now: string;
  readonly why: string;
}

/** Links of one sheet, by cell; or why they stay. */
export interface MovedLinks {
  readonly sheet: string;
  readonly formulas: Readonly<Record<string, string>>;
  readonly stays?: string;
}

/**
 * Brings a sheet up to date: a new one beside it, from what was typed on it. The older one stays as it is. Nothing is
 * written here; what of it happens is up to who asks.
 *
 * @param makeId a new id each time
 */
export function upToDate(
  book: Book,
  sheet: string,
  moment: Moment,
  makeId: () => string,
): { ok: true; made: UpToDate } | { ok: false; why: string } {
  const older = sheetOf(book, sheet);
  if (!older?.identity) return { ok: false, why: `“${sheet}” is not a sheet of ours.` };
  if (!isOlder(older)) return { ok: false, why: `“${sheet}” has today’s layout already.` };
  if (older.identity.kind === 'overview')
    return { ok: false, why: 'An overview is written anew by its own step: bring it up to date there.' };
  const found = rebuilt(older, book);
  if (!found) return { ok: false, why: `“${sheet}” cannot be built anew: what it is linked to is gone.` };
  const { places } = found;
  const plan = { ...planOf(found.plan, found.sheet.cells, makeId()), title: older.sheet.name };
  const name = freeName(
    plan.title,
    book.sheets.map((each) => each.name),
  );
  const whole = calculateBook({ ...book, sheets: [...book.sheets, realize(plan, name)] });
  const anew = sheetOf(whole, name)!;
  const own = () => sheetOf(whole, older.sheet.name)!;
  const renewed = { older, anew, plan, places, book: whole, own, before: (_: string, at: string) => at };
  const differences = differencesOf(renewed, undefined, new Map([[name, renewed]])).map(
    (difference): DifferingFigure => {
      const { label, at, to, then, now, because } = difference;
      const isExplained = because.length > 0 && !isAltered(renewed, difference);
      return {
        label,
        at,
        to,
        was: inWords(then),
        now: inWords(now),
        why: isExplained
          ? because.map(({ words }) => words).join(' ')
          : 'It does not follow from what was typed on the older sheet: that was altered, or not calculated.',
      };
    },
  );
  const table = reportPlan(
    {
      kind: 'findings',
      version: 1,
      title: `Differences ${name}`,
      heading: 'What differs after bringing a sheet up to date',
      columns: COLUMNS,
      moment,
      things: 'figures',
      facts: [
        ['Sheet of before', `${older.sheet.name}, layout ${older.identity.version}${by(older.builtBy)}`],
        ['New sheet', `${name}, layout ${plan.version}${by(PROGRAM)}`],
        [
          'Outcome',
          differences.length === 0 ? 'Every figure is the same.' : `${differences.length} figures differ.`,
        ],
      ],
      rows: differences.map(({ label, at, to, was, now, why }) => [label, at, to, was, now, why]),
    },
    makeId(),
  );
  return {
    ok: true,
    made: { plan, name, table, differences, links: linksTo(book, older, name, places) },
  };
}

const by = (version: string | undefined) => (version === undefined ? '' : `, built by version ${version}`);

const COLUMNS = [
  { label: 'Figure', width: 40 },
  { label: 'Cell before', width: 11 },
  { label: 'Cell now', width: 11 },
  { label: 'Before', width: 22 },
  { label: 'Now', width: 22 },
  { label: 'Why', width: 60 },
] as const;

/** A plan with what stands in the cells of a sheet that was built from it. */
function planOf(plan: Plan, typed: Readonly<Record<string, BookCell>>, id: string): Plan {
  const cells = Object.fromEntries(
    Object.entries(plan.cells).map(([at, { value: _, formula: __, ...cell }]) => {
      const { value = null, formula } = typed[at] ?? {};
      if (formula !== undefined) return [at, { ...cell, formula }];
      return [at, value === null || typeof value === 'object' ? cell : { ...cell, value }];
    }),
  );
  return { ...plan, id, cells };
}

/** What of other sheets refers to an older one, retold for the new one. */
function linksTo(
  book: Book,
  older: SheetView,
  name: string,
  places: ReadonlyMap<string, string>,
): MovedLinks[] {
  const from = older.sheet.name;
  const to = new Map([...places].map(([now, was]) => [was, now]));
  return book.sheets.flatMap((sheet): MovedLinks[] => {
    const view = viewOf(sheet);
    const kind = view.identity?.kind;
    if (sheet.name === from || kind === 'overview' || (kind && RECORD_KINDS.includes(kind))) return [];
    const linked = Object.entries(sheet.cells).filter(
      ([, { formula }]) =>
        formula?.includes('!') &&
        foreignSheets(view, formula).some((each) => each.toLowerCase() === from.toLowerCase()),
    );
    if (linked.length === 0) return [];
    if (isSealed(view)) return [{ sheet: sheet.name, formulas: {}, stays: 'it is sealed' }];
    const formulas: Record<string, string> = {};
    for (const [at, { formula }] of linked) {
      const moved = retarget(formula!, (other, cell) =>
        other.toLowerCase() === from.toLowerCase() ? to.get(cell) : cell,
      );
      if (moved === undefined)
        return [{ sheet: sheet.name, formulas: {}, stays: `${at} refers to a cell that has no name` }];
      formulas[at] = renamedLinks(moved, from, name);
    }
    return [{ sheet: sheet.name, formulas }];
  });
}

/** The links of one sheet to a new one that came out under another name than was meant. */
export function linksUnder({ formulas }: MovedLinks, meant: string, name: string): Record<string, string> {
  return Object.fromEntries(
    Object.entries(formulas).map(([at, formula]) => [at, renamedLinks(formula, meant, name)]),
  );
}

/** The book with the new sheet, its table and, if told, the links moved; calculated. */
export function withUpToDate(book: Book, made: UpToDate, movesLinks: boolean): Book {
  const taken = [...book.sheets.map(({ name }) => name), made.name];
  const table = realize(made.table, freeName(made.table.title, taken));
  const links = new Map(movesLinks ? made.links.map(({ sheet, formulas }) => [sheet, formulas]) : []);
  const sheets = book.sheets.map((sheet) => {
    const formulas = links.get(sheet.name) ?? {};
    if (Object.keys(formulas).length === 0) return sheet;
    const cells = Object.fromEntries(
      Object.entries(sheet.cells).map(([at, cell]) => [
        at,
        formulas[at] === undefined ? cell : { ...cell, formula: formulas[at] },
      ]),
    );
    return { ...sheet, cells };
  });
  const whole = calculateBook({ ...book, sheets: [...sheets, realize(made.plan, made.name), table] });
  const isNew = (name: string) => name === made.name || links.has(name);
  return {
    ...whole,
    sheets: whole.sheets.map((sheet, i) => (isNew(sheet.name) || i >= sheets.length ? sheet : sheets[i]!)),
  };
}
