import type { PlanBuilder } from '../builder';
import { type Field, refusalOf } from './cell';

/** Columns of a set-up of two lines side by side: the whole, and label and cells of either. */
interface TwoColumns {
  readonly whole: readonly [from: string, to: string];
  readonly left: Line;
  readonly right: Line;
}
type Line = readonly [label: string, cells: readonly [from: string, to: string]];

/** The title of an input rule has room for so many characters in Excel. */
const TITLE_MAX = 32;

/** Set-up fields below their heading, two lines side by side. Returns the first row below. */
export function putSideBySide(
  b: PlanBuilder,
  row: number,
  fields: readonly Field[],
  columns: TwoColumns,
): number {
  const across = ([from, to]: readonly [string, string], r: number) => `${from}${r}:${to}${r}`;
  b.wide(across(columns.whole, row), {
    role: 'heading',
    value: 'Set-up (tinted cells are yours to fill in)',
  });
  fields.forEach((field, i) => {
    const r = row + 1 + (i >> 1);
    const [label, cells] = i % 2 === 0 ? columns.left : columns.right;
    putField(
      b,
      field,
      label
        .split(':')
        .map((column) => `${column}${r}`)
        .join(':'),
      across(cells, r),
    );
  });
  return row + 1 + Math.ceil(fields.length / 2);
}

function putField(b: PlanBuilder, field: Field, labelAt: string, cells: string): void {
  const { label, name, value, rule, why, format } = field;
  const at = cells.split(':')[0]!;
  b.wide(labelAt, { role: 'label', value: label });
  b.wide(cells, {
    role: rule.type === 'list' ? 'choice' : 'input',
    ...(value === undefined || value === '' ? {} : { value }),
    ...(format ? { format } : {}),
  });
  b.name(name, at, label);
  const title = label.slice(0, TITLE_MAX);
  b.validate({
    range: at,
    rule,
    prompt: { title, message: why },
    refusal: { title, message: refusalOf(field), style: 'stop' },
  });
}
