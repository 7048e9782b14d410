import { cellsOf, contains, isAddress, type Rect, rectOf } from '../../sheets/address';
import type { Book } from '../../sheets/book';
import { hiddenIn } from '../../sheets/merges';
import type { CellName } from '../../sheets/names/all';
import type { Plan } from '../../sheets/plan';
import { BUDGET_RESULT, type BudgetId } from '../../sheets/run/budgetid';
import { checkContent } from '../check/contents';
import type { Finding } from '../check/finding';
import { checkNames } from '../check/names';
import { storedChecks } from '../check/results';
import { expectedOf } from '../expected';
import { type Node, nodesOf } from '../formula/ast';
import { parseOnce } from '../formula/calculate';
import { evaluate, evaluateWhole, isTableFormula } from '../formula/evaluate';
import { isGrid } from '../formula/value';
import type { KindAudit } from '../kinds/kind';
import { originOfTyped } from '../kinds/typed';
import {
  cellAt,
  gridAt,
  gridOf,
  isOwnSheet,
  type SheetView,
  scopeOf,
  sheetOf,
  valueAt,
  viewOf,
} from '../view';
import { AWAY, away, columnsOf, isSmall } from './areas';
import { innerNamed, withInner } from './inner';
import { type Labels, labelsOf } from './labels';
import { inNumbers, inWords, type Reader } from './leaves';
import type { TracedCell, TraceNode } from './node';
import { type Source, sourceOfCall, sourceOfName } from './sources';
import { taken } from './taken';
import { write } from './write';

export interface TraceOptions {
  /** Significant digits of the numbers put into formulas; 7 unless given. */
  readonly digits?: number;
}

/** Deeper and wider than any chain of ours; a stranger's sheet may go round in circles or on for ever. */
const DEPTH = 40;
const NODES = 2_000;
/** Lines that count are followed one by one up to so many. */
const COUNTED = 12;

/**
 * The chain of a cell: its value, the formula that gives it as it stands in the workbook, in words and with the
 * numbers put in, what the formula rests on, and so on down to what was typed. Undefined if there is no such sheet.
 *
 * @param target a cell such as `B60`, or a name of the sheet such as `WhiteLightOutput`
 */
export function trace(
  book: Book,
  sheet: string,
  target: string,
  options: TraceOptions = {},
): TraceNode | undefined {
  const found = book.sheets.find(({ name }) => name === sheet);
  if (!found) return undefined;
  const view = viewOf(found);
  const tracer = new Chains(book, options.digits ?? 7).of(view);
  const address =
    tracer.view.places.get(target.toLowerCase())?.address ?? target.replace(/\$/g, '').toUpperCase();
  return isAddress(address) ? tracer.node(address, 0) : undefined;
}

/** One tracer a sheet: a chain goes on into the sheets that formulas are linked to. */
class Chains {
  /** What was explained already, by sheet and address. */
  readonly seen = new Set<string>();
  private readonly tracers = new Map<SheetView, Tracer>();

  constructor(
    readonly book: Book,
    readonly digits: number,
  ) {}

  of(view: SheetView): Tracer {
    const known = this.tracers.get(view) ?? new Tracer(this, view);
    this.tracers.set(view, known);
    return known;
  }

  /** The tracer of another sheet, if it is at hand. */
  on(sheet: string): Tracer | undefined {
    const view = sheetOf(this.book, sheet);
    return view && this.of(view);
  }
}

class Tracer implements Reader {
  readonly view: SheetView;
  readonly labels: Labels;
  /** A formula as it reads with the plan's words for cells that have no name. */
  private readonly read: (formula: string) => Node | undefined;
  /** Where a cell or a range differs from what was built, in words. */
  private readonly findings: (at: string) => string[];
  private readonly scope;
  /** Tables that a function fills beside its own cell, by that cell. */
  private readonly tables: ReadonlyMap<string, Rect>;
  /** The plain formula of a result, where a function's table holds the result. */
  private readonly twins = new Map<string, string>();
  /** Areas whose rows are read each by itself. */
  private readonly byRow: readonly Rect[];
  /** Those of them where what a whole column rests on is whole columns too. */
  private readonly lines: readonly Rect[];
  private readonly plan: Plan | undefined;
  private readonly audit: KindAudit | undefined;

  constructor(
    private readonly chains: Chains,
    view: SheetView,
  ) {
    const expected = expectedOf(view, chains.book);
    const plan = expected.known ? expected.plan : undefined;
    const named = innerNamed(view, plan);
    this.view = withInner(view, plan);
    this.read = (formula) => {
      const node = parseOnce(formula);
      return node && named(node);
    };
    this.plan = plan;
    this.audit = expected.known ? expected.audit : undefined;
    this.labels = labelsOf(this.view, plan);
    this.scope = scopeOf(this.view, chains.book);
    this.lines = plan ? (this.audit?.lines?.(plan) ?? []).map(rectOf) : [];
    this.byRow = [...(plan?.fills ?? []).map(rectOf), ...this.lines];
    this.tables = new Map(
      Object.entries(view.sheet.cells).flatMap(([at, { formula, spill }]) =>
        formula !== undefined && spill !== undefined && isTableFormula(formula) ? [[at, rectOf(spill)]] : [],
      ),
    );
    if (expected.known && this.tables.size > 0) {
      for (const { at, twinAt } of expected.audit.results(view, expected.plan)) {
        if (twinAt !== undefined && this.tableOf(at)) this.twins.set(at, twinAt);
      }
    }
    this.findings = plan ? this.findingsOf(plan) : () => [];
  }

  /** Cells are looked at when a chain comes to them: a batch has more than a hundred thousand. */
  private findingsOf(plan: Plan): (at: string) => string[] {
    const hidden = hiddenIn(plan.merges);
    const stored = storedChecks(this.view, plan, this.chains.book);
    const ofNames = checkNames(this.view, plan.names);
    return (at) => {
      const isCell = !at.includes(':');
      const found: (Finding | undefined)[] = [
        isCell ? checkContent(this.view, plan.cells, hidden, at) : undefined,
        ...ofNames.filter((finding) => finding.at === at),
        ...(isCell ? stored(at) : []),
        isCell ? this.originOf(at)?.finding : undefined,
      ];
      return found
        .flatMap((each) => each ?? [])
        .map(({ message, expected, found: came }) => `${message} Expected: ${expected}; found: ${came}.`);
    };
  }

  node(address: string, depth: number): TraceNode {
    const place = this.labels.home(address);
    const name = place?.address === address ? place.name : undefined;
    const base = {
      sheet: this.view.sheet.name,
      at: address,
      ...(name === undefined ? {} : { name }),
      label: this.labels.of(address),
      unit: this.labels.unit(address),
      ...this.uncertaintyOf(name),
    };
    const { seen } = this.chains;
    const key = away(this.view.sheet.name, address);
    const isSeen = seen.has(key);
    const isEnd = isSeen || depth >= DEPTH || seen.size >= NODES;
    seen.add(key);
    if (address.includes(':')) return { ...base, ...this.range(address, name, isEnd, depth), isSeen };
    return { ...base, ...this.cell(address, name, isEnd, depth), isSeen };
  }

  private cell(address: string, name: string | undefined, isEnd: boolean, depth: number) {
    const cell = cellAt(this.view, address);
    const explained = this.explain(address);
    const origin = cell?.formula === undefined ? this.originOf(address) : undefined;
    const areas = explained?.areas ?? origin?.areas ?? [];
    const children = isEnd ? [] : this.children(areas, address, name, depth);
    return {
      value: cell?.value ?? null,
      ...(cell?.formula === undefined ? {} : { formula: cell.formula }),
      ...(explained
        ? { words: explained.words, numbers: explained.numbers, recomputed: explained.recomputed }
        : {}),
      because: explained?.because ?? [],
      ...(explained?.source ?? origin?.source ?? (name === undefined ? undefined : sourceOfName(name))),
      findings: this.findings(address),
      children,
    };
  }

  private range(address: string, name: string | undefined, isEnd: boolean, depth: number) {
    const cells = isSmall(address) ? cellsOf(address) : [];
    const explained = cells.map((at) => ({ at, ...this.explain(at, true) }));
    const isComputed = explained.some(({ areas }) => areas !== undefined);
    const origins = new Map(cells.map((at) => [at, isComputed ? undefined : this.originOf(at)]));
    const areas = columnsOf(
      [...new Set(explained.flatMap(({ at, areas: from = origins.get(at)?.areas ?? [] }) => from))].map(
        (area) => this.wholeColumn(area),
      ),
      (at) => this.labels.home(at) === undefined,
    );
    // One line of words only where all cells say the same.
    const inWords = new Set(explained.map(({ words }) => words));
    const [common] = inWords.size === 1 ? inWords : [];
    const ofAll = shared([...origins.values()].flatMap((origin) => origin?.source ?? []));
    const source = ofAll ?? (name === undefined ? undefined : sourceOfName(name));
    const traced: TracedCell[] = explained.map(({ at, numbers, recomputed }) => {
      const from = ofAll ? undefined : origins.get(at)?.source.source;
      return {
        at,
        label: this.labels.of(at),
        value: valueAt(this.view, at),
        ...(numbers === undefined ? {} : { numbers }),
        ...(recomputed === undefined ? {} : { recomputed }),
        ...(from === undefined ? {} : { source: from }),
      };
    });
    const sourced = traced.filter((cell) => cell.source !== undefined);
    return {
      value: null,
      values: gridAt(this.view, address) ?? [],
      ...(isComputed ? { cells: traced, words: common } : sourced.length > 0 ? { cells: sourced } : {}),
      because: [],
      ...source,
      findings: [...cells, address].flatMap(this.findings),
      children: isEnd ? [] : this.children(areas, address, name, depth),
    };
  }

  /** Children in the order of the formula; a result's plain formula, which says the same openly, comes first. */
  private children(
    areas: readonly string[],
    own: string,
    name: string | undefined,
    depth: number,
  ): TraceNode[] {
    const twin = name === undefined ? undefined : this.view.places.get(`${name}plain`.toLowerCase())?.address;
    const all = [...new Set([...(twin === undefined ? [] : [twin]), ...areas])];
    return all
      .filter((area) => area !== own)
      .flatMap((area) => {
        const [sheet, address] = area.includes(AWAY) ? area.split(AWAY) : [undefined, area];
        const tracer = sheet === undefined ? this : this.chains.on(sheet);
        return tracer ? [tracer.node(address!, depth + 1)] : [];
      });
  }

  /** The cell of the function that fills this one. */
  private tableOf(address: string): { at: string; rect: Rect } | undefined {
    for (const [at, rect] of this.tables) if (contains(rect, rectOf(address))) return { at, rect };
    return undefined;
  }

  /** A cell of a table: what the function gives for it, and the plain formula of its row to go on from. */
  private explainFilled(address: string, { at, rect }: { at: string; rect: Rect }) {
    const node = this.read(cellAt(this.view, at)!.formula!);
    const whole = node && evaluateWhole(node, this.scope);
    if (!node || whole === undefined) return undefined;
    const { row, column } = rectOf(address);
    const [down, right] = [row - rect.row, column - rect.column];
    const place = `row ${down + 1}, column ${right + 1} of the table`;
    const twin = this.twins.get(address);
    return {
      words: `${place}: ${write(node, inWords(this))}`,
      numbers: `${place}: ${write(node, inNumbers(this))}`,
      recomputed: isGrid(whole) ? (whole[down]?.[right] ?? null) : whole,
      because: address === at ? [] : [`filled by the function in ${at}`],
      source: sourceOfCall(node),
      areas: twin === undefined ? this.areasOf(node) : [twin],
    };
  }

  private explain(address: string, isOfMany = false) {
    const table = this.tableOf(address);
    if (table) return this.explainFilled(address, table);
    const cell = cellAt(this.view, address);
    if (cell?.formula === undefined) return undefined;
    const node = this.read(cell.formula);
    if (!node) return undefined;
    const part = taken(node, this.scope);
    const reasons = part.because.map((reason) => write(reason, inWords(this)));
    const source: Source | undefined = sourceOfCall(node);
    return {
      // A branch that only holds the value says nothing that the value does not.
      ...(isLiteral(part.node)
        ? {}
        : {
            words: write(part.node, inWords(this, isOfMany)),
            numbers: write(part.node, inNumbers(this)),
          }),
      recomputed: evaluate(node, this.scope),
      because: reasons,
      source,
      areas: [...new Set([part.node, ...part.because].flatMap((each) => this.areasOf(each)))],
    };
  }

  /** Areas a formula rests on; a cell of a named grid counts as the grid. */
  private areasOf(node: Node): string[] {
    const counted = this.countedIn(node);
    const found: string[] = [...counted.values()].flat();
    for (const part of nodesOf(node)) {
      if ((part.kind !== 'name' && part.kind !== 'range') || counted.has(part)) continue;
      const isOwn = isOwnSheet(this.view, part.sheet);
      const tracer = isOwn ? this : this.chains.on(part.sheet!);
      const area = tracer?.areaOf(part);
      if (area !== undefined) found.push(isOwn ? area : away(part.sheet!, area));
    }
    return found;
  }

  /** Where words are counted in a column of a table of lines: the lines that count, if they are few. */
  private countedIn(node: Node): Map<Node, string[]> {
    const counted = new Map<Node, string[]>();
    for (const part of nodesOf(node)) {
      if (part.kind !== 'call' || part.name !== 'COUNTIF') continue;
      const [where, what] = part.args;
      if (what?.kind !== 'text' || (where?.kind !== 'name' && where?.kind !== 'range')) continue;
      const area = isOwnSheet(this.view, where.sheet) ? this.areaOf(where) : undefined;
      const isColumn = area !== undefined && this.lines.some((lines) => contains(lines, rectOf(area)));
      const cells = isColumn ? cellsOf(area).filter((at) => valueAt(this.view, at) === what.value) : [];
      if (cells.length > 0 && cells.length <= COUNTED) counted.set(where, cells);
    }
    return counted;
  }

  /** The area behind a reference; a cell of a named grid counts as the grid. */
  private areaOf(part: Extract<Node, { kind: 'name' | 'range' }>): string | undefined {
    if (part.kind === 'name') return this.view.places.get(part.name.toLowerCase())?.address;
    const own = rectOf(part.address);
    if (this.byRow.some((rect) => contains(rect, own))) return part.address;
    return this.labels.home(part.address)?.address ?? part.address;
  }

  /** Where a typed figure is from, and what its input rule says that it is. */
  private originOf(at: string): { source: Source; areas: string[]; finding?: Finding } | undefined {
    if (!this.plan || !this.audit) return undefined;
    const origin =
      this.audit.origin?.(this.view, this.plan, at, this.chains.book) ??
      originOfTyped(this.view, this.plan, at);
    if (!origin) return undefined;
    const rule = this.plan.validations.find(({ range }) => contains(rectOf(range), rectOf(at)));
    return {
      source: { definition: origin.definition ?? rule?.prompt.message ?? '', source: origin.source },
      areas: origin.from ? [away(origin.from.sheet, origin.from.at)] : [],
      ...(origin.finding ? { finding: origin.finding } : {}),
    };
  }

  /** Of a cell in a table of lines its column, which a column of formulas rests on as a whole. */
  private wholeColumn(area: string): string {
    if (area.includes(AWAY)) return area;
    const isInLine = this.lines.some((rect) => contains(rect, rectOf(area)));
    return isInLine ? (this.labels.home(area)?.address ?? area) : area;
  }

  /** The tracer of another sheet, if it is at hand. */
  on(sheet: string): Tracer | undefined {
    return this.chains.on(sheet);
  }

  get digits(): number {
    return this.chains.digits;
  }

  private uncertaintyOf(name: string | undefined): Pick<TraceNode, 'uncertainty'> {
    const id = (Object.keys(BUDGET_RESULT) as BudgetId[]).find((each) => BUDGET_RESULT[each].name === name);
    if (!id) return {};
    const one = (of: CellName) => gridOf(this.view, of)[0]?.[0];
    const [U, k, level] = [one(`${id}ExpandedPlain`), one(`${id}KPlain`), one('Level')];
    const at = this.view.places.get(`${id}expandedplain`.toLowerCase())?.address;
    if (typeof U !== 'number' || typeof k !== 'number' || typeof level !== 'number' || !at) return {};
    return { uncertainty: { U, k, level, at } };
  }
}

function isLiteral({ kind }: Node): boolean {
  return kind === 'text' || kind === 'number';
}

/** The source that all have; undefined where they differ or there is none. */
function shared(sources: readonly Source[]): Source | undefined {
  const [first] = sources;
  return sources.every(({ source }) => source === first?.source) ? first : undefined;
}
