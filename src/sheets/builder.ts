import { addressOf, cellName, cellsOf, columnIndex, rectOf } from './address';
import type { Alert, CellNote, Chart, ColourScale, TableFilter, Validation } from './book';
import { addressed } from './inner';
import { tableRect } from './longtable';
import { isNameOf } from './names/all';
import { type Pages, printSetup } from './paper';
import type { Plan, PlanCell, PlanName, SheetKind } from './plan';

/**
 * Collects a plan piece by piece and refuses what cannot stand on one sheet: a cell used twice, a name used
 * twice, overlapping merges, a text too long for Excel. Such mistakes are the author's, so it throws.
 */
export class PlanBuilder {
  readonly cells: Record<string, PlanCell> = {};
  private readonly names = new Map<string, Omit<PlanName, 'name'>>();
  private readonly inner = new Map<string, Omit<PlanName, 'name'>>();
  private readonly validations: Validation[] = [];
  private readonly scales: ColourScale[] = [];
  private readonly alerts: Alert[] = [];
  private readonly notes: CellNote[] = [];
  private readonly merges: string[] = [];
  private readonly charts: Chart[] = [];
  private filtered: TableFilter | undefined;
  private readonly rows: Record<string, number> = {};
  private readonly fills: string[] = [];
  private readonly parts: number[] = [];
  private readonly always = new Set<number>();
  /** The last row and column that hold anything. */
  private readonly last = { row: 0, column: 0 };

  /** Puts a cell at an address, or the same cell all over a range. */
  put(range: string, cell: PlanCell): this {
    const { row, column, rows, columns } = rectOf(range);
    for (let r = row; r < row + rows; r++)
      for (let c = column; c < column + columns; c++) this.putAt(r, c, cell);
    return this;
  }

  /** Puts a cell at a place; row and column count from 0. */
  putAt(row: number, column: number, cell: PlanCell): void {
    const at = cellName(row, column);
    if (this.cells[at]) throw new Error(`Two blocks of the plan use cell ${at}`);
    this.cells[at] = cell;
    if (row > this.last.row) this.last.row = row;
    if (column > this.last.column) this.last.column = column;
  }

  /** Puts a cell in the first cell of a range and merges the range. */
  wide(range: string, cell: PlanCell): this {
    const [first = range, ...others] = cellsOf(range);
    this.put(first, cell);
    for (const at of others) this.put(at, { role: cell.role });
    if (others.length > 0) this.merges.push(range);
    return this;
  }

  name(name: string, range: string, comment: string): this {
    return this.called(this.names, name, range, comment);
  }

  /** A name that formulas of the plan may use and that the sheet has not: it has the address there. */
  innerName(name: string, range: string, comment: string): this {
    return this.called(this.inner, name, range, comment);
  }

  private called(among: Map<string, Omit<PlanName, 'name'>>, name: string, range: string, comment: string) {
    if (this.names.has(name) || this.inner.has(name))
      throw new Error(`Two ranges of the plan are called ${name}`);
    among.set(name, { range, comment });
    return this;
  }

  /** Where a name already put stands. */
  rangeOf(name: string): string {
    const named = this.names.get(name) ?? this.inner.get(name);
    if (!named) throw new Error(`The plan has no ${name} yet`);
    return named.range;
  }

  validate(validation: Validation): this {
    const { prompt, refusal, rule } = validation;
    // Excel's limits: prompt 255, error text 224, titles 32 characters ([MS-OI29500] 2.1.613).
    if (prompt.title.length > 32 || prompt.message.length > 255)
      throw new Error(`Prompt too long: ${prompt.message}`);
    if (refusal.title.length > 32 || refusal.message.length > 224)
      throw new Error(`Refusal too long: ${refusal.message}`);
    // A list is stored as one text with commas between its entries.
    if (rule.type === 'list' && rule.choices.some((choice) => choice.includes(',')))
      throw new Error(`A choice with a comma would be two: ${rule.choices.join(' | ')}`);
    this.validations.push(validation);
    return this;
  }

  scale(scale: ColourScale): this {
    this.scales.push(scale);
    return this;
  }

  alert(alert: Alert): this {
    this.alerts.push(alert);
    return this;
  }

  note(at: string, text: string): this {
    this.notes.push({ at, text });
    return this;
  }

  /** A chart that is printed with the sheet. Cells under it are what hosts without charts show in its place. */
  chart(chart: Chart): this {
    this.charts.push(chart);
    return this;
  }

  height(row: number, points: number): this {
    this.rows[String(row)] = points;
    return this;
  }

  /** Says that a part begins at a row, which a page should not cut: a new one may begin there. */
  part(row: number): this {
    this.parts.push(row);
    return this;
  }

  /** Says that a part begins at a row, which always begins a page. */
  page(row: number): this {
    this.always.add(row);
    return this.part(row);
  }

  /** Says that every row of a range repeats the formulas and looks of its first; ranges one below another are one table. */
  fill(range: string): this {
    this.fills.push(range);
    return this;
  }

  /** Arrows at the heads of a table, which filter its lines. */
  filter(range: string, sorts = false): this {
    this.filtered = { range, sorts };
    return this;
  }

  build(rest: {
    kind: SheetKind;
    version: number;
    id: string;
    title: string;
    columns: Record<string, number>;
    print: Pages;
    start: string;
    freeze?: { rows: number; columns: number };
  }): Plan {
    for (const { over } of this.charts) {
      const { row, column, rows, columns } = rectOf(over);
      this.last.row = Math.max(this.last.row, row + rows - 1);
      this.last.column = Math.max(this.last.column, column + columns - 1);
    }
    const area = `A1:${cellName(this.last.row, this.last.column)}`;
    const table = tableRect(this.fills);
    for (const [name, { range }] of [...this.names, ...this.inner]) {
      const rect = rectOf(range);
      // The rows of a table are alike: its first one stands for all.
      const isFilled = table?.row === rect.row && table.rows === rect.rows;
      for (const at of cellsOf(isFilled ? addressOf({ ...rect, rows: 1 }) : range))
        if (!this.cells[at]) throw new Error(`${name} covers ${at}, which the plan leaves empty`);
    }
    const planned = (names: ReadonlyMap<string, Omit<PlanName, 'name'>>): PlanName[] =>
      [...names].map(([name, where]) => {
        if (!isNameOf(rest.kind, name)) throw new Error(`A ${rest.kind} sheet has no cells called ${name}`);
        return { name, ...where };
      });
    return {
      ...rest,
      cells: this.inner.size === 0 ? this.cells : this.addressed(),
      names: planned(this.names),
      ...(this.inner.size > 0 ? { inner: planned(this.inner) } : {}),
      validations: this.validations,
      scales: this.scales,
      alerts: this.alerts,
      notes: this.notes,
      merges: this.merges,
      rows: this.rows,
      print: printSetup(rest.print, area, {
        columns: rest.columns,
        rows: this.rows,
        parts: this.parts,
        always: this.always,
      }),
      ...(rest.print.area === undefined ? {} : { area }),
      ...(this.fills.length > 0 ? { fills: this.fills } : {}),
      ...(this.charts.length > 0 ? { charts: this.charts } : {}),
      ...(this.filtered ? { filter: this.filtered } : {}),
    };
  }

  /** The cells with addresses in the place of inner names. */
  private addressed(): Record<string, PlanCell> {
    const spelt = addressed(new Map([...this.inner].map(([name, { range }]) => [name, range])));
    return Object.fromEntries(
      Object.entries(this.cells).map(([at, cell]) => [
        at,
        cell.formula === undefined ? cell : { ...cell, formula: spelt(cell.formula) },
      ]),
    );
  }
}

/** `('B12', 1, 2)` → `D13`: one row down, two columns right. */
export function shift(at: string, rows: number, columns: number): string {
  const { row, column } = rectOf(at);
  return cellName(row + rows, column + columns);
}

/** `('B', 12, 3, 3)` → `B12:D14`. */
export function block(column: string, row: number, rows: number, columns: number): string {
  return addressOf({ row: row - 1, column: columnIndex(column), rows, columns });
}
