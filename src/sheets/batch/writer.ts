import { columnName } from '../address';
import type { ValidationRule } from '../book';
import type { PlanBuilder } from '../builder';
import { wordsOf } from '../run/derived';
import type { Derived } from '../run/setup';
import { type Known, refusalOfKnown } from '../run/uncertainty';
import { type Field, refusalOf } from '../setup/cell';

/** Widths of the block's seven columns: label, entry, unit, as used … and words. */
const WIDTHS = [34, 16, 11, 16, 13, 9, 84] as const;

/** Writes lines of set-up and budget one below another, in seven columns beside the table of units. */
export class BlockWriter {
  row: number;

  constructor(
    readonly b: PlanBuilder,
    /** First column, from 0. */
    private readonly first: number,
    row: number,
  ) {
    this.row = row;
  }

  /** `(1, 20)` → cell of the second column in row 20; the current row unless given. */
  at(column: number, row = this.row): string {
    return `${columnName(this.first + column)}${row}`;
  }

  span(from: number, to: number, row = this.row): string {
    return `${this.at(from, row)}:${this.at(to, row)}`;
  }

  get widths(): Record<string, number> {
    return Object.fromEntries(WIDTHS.map((width, i) => [columnName(this.first + i), width]));
  }

  /** Headings over the columns; the last one takes the rest of the width. */
  heading(...titles: readonly string[]): void {
    titles.forEach((value, i) => {
      const isLast = i === titles.length - 1;
      this.b.wide(isLast ? this.span(i, 6) : this.at(i), { role: 'heading', ...(value ? { value } : {}) });
    });
    this.row++;
  }

  words(role: 'note' | 'caution', value: string, height: number): void {
    this.b.wide(this.span(0, 6), { role, value }).height(this.row, height);
    this.row++;
  }

  /** An input with its label, name, rule and reason. */
  field(field: Field): void {
    const { label, name, value, rule, why, format } = field;
    this.label(label);
    this.b.wide(this.span(1, 2), {
      role: rule.type === 'list' ? 'choice' : 'input',
      ...(value === undefined || value === '' ? {} : { value }),
      ...(format ? { format } : {}),
    });
    this.b.name(name, this.at(1), label);
    this.ask(label, rule, why, refusalOf(field));
    this.b.wide(this.span(3, 6), { role: 'check', value: why });
    this.row++;
  }

  /** Something that follows, in the column of what counts. */
  derived({ label, name, formula, format }: Derived, words?: string): void {
    this.label(label);
    this.b.put(this.at(3), { role: 'derived', formula, format }).name(name, this.at(3), label);
    if (words !== undefined)
      this.b.wide(this.span(4, 6), {
        role: 'check',
        ...wordsOf(words),
      });
    this.row++;
  }

  /** A half-width that may be left empty: entry, unit, what counts, and why. */
  known({ label, name, value, unit, format, bounds, assumed, because, why }: Known): void {
    const [entry, used] = [this.at(1), this.at(3)];
    this.label(label);
    this.b.put(entry, { role: 'input', format, ...(value === undefined ? {} : { value }) });
    this.b.put(this.at(2), { role: 'unit', value: unit });
    this.b.put(used, { role: 'derived', formula: `=IF(ISNUMBER(${entry}),${entry},${assumed})`, format });
    this.b.wide(this.span(4, 6), {
      role: 'check',
      formula: `=IF(ISNUMBER(${entry}),"as entered","${because}")`,
    });
    this.b.name(name, entry, label).name(`${name}Used`, used, `${label} as used`);
    this.ask(
      label,
      { type: 'number', ...bounds },
      `${why} Half-width. Leave empty if unknown.`,
      refusalOfKnown(bounds, format),
    );
    this.row++;
  }

  label(value: string): void {
    this.b.put(this.at(0), { role: 'label', value });
  }

  private ask(label: string, rule: ValidationRule, message: string, refusal: string): void {
    const title = label.slice(0, 32);
    this.b.validate({
      range: this.at(1),
      rule,
      prompt: { title, message },
      refusal: { title, message: refusal, style: 'stop' },
    });
  }
}
