import type { Validation } from '../../src/sheets/book';
import type { Plan } from '../../src/sheets/plan';

/** A plan as text that a person can read, one line a thing; cells are in the order of the plan. */
export function showPlan(plan: Plan): string {
  const lines = [
    `${plan.kind} version ${plan.version}, "${plan.title}", starts at ${plan.start}`,
    `prints ${plan.print.area} ${plan.print.orientation}, ${plan.print.wide} × ${plan.print.tall} pages${plan.print.breaks?.length ? `, new ones above ${plan.print.breaks.join(', ')}` : ''}`,
    `columns ${Object.entries(plan.columns)
      .map(([name, width]) => `${name} ${width}`)
      .join(', ')}`,
    `rows ${Object.entries(plan.rows)
      .map(([row, height]) => `${row} ${height}`)
      .join(', ')}`,
    ...(plan.filter ? [`filters${plan.filter.sorts ? ' and sorts' : ''} ${plan.filter.range}`] : []),
    '',
    'cells',
    ...Object.entries(plan.cells).flatMap(([at, { role, value, formula, format }]) => {
      // The other cells of a merged range hold nothing but the look of the first.
      if (value === undefined && formula === undefined && !isEntry(role)) return [];
      const shown = formula ?? (value === undefined ? '' : JSON.stringify(value));
      return [`  ${at} ${role}${format ? ` [${format}]` : ''} ${shown}`.trimEnd()];
    }),
    '',
    'names',
    ...plan.names.map(({ name, range, comment }) => `  ${name} = ${range} (${comment})`),
    '',
    'validations',
    ...plan.validations.flatMap((validation) => showValidation(validation)),
    '',
    'looks',
    ...plan.scales.map(({ range, low, middle, high }) => `  ${range} scale ${low} ${middle ?? ''} ${high}`),
    ...plan.alerts.map(
      ({ range, begins, fill, color }) => `  ${range} begins "${begins}" ${color} on ${fill}`,
    ),
    '',
    'notes',
    ...plan.notes.map(({ at, text }) => `  ${at} ${text.replace(/\n/g, ' | ')}`),
    '',
    `merges ${plan.merges.join(' ')}`,
  ];
  return `${lines.join('\n')}\n`;
}

const isEntry = (role: string) => ['input', 'choice', 'reading', 'factor', 'words'].includes(role);

function showValidation({ range, rule, prompt, refusal }: Validation): string[] {
  const { type, ...rest } = rule;
  return [
    `  ${range} ${type} ${JSON.stringify(rest)}`,
    `    asks "${prompt.title}": ${prompt.message}`,
    `    ${refusal.style}s "${refusal.title}": ${refusal.message}`,
  ];
}
