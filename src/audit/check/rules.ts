import { cellCount, cellsOf, isAddress } from '../../sheets/address';
import type { Validation, ValidationRule } from '../../sheets/book';
import { relative } from '../formula/relative';
import { once } from '../once';
import { AREA_MAX, type SheetView } from '../view';
import type { Finding } from './finding';
import { inSteps, type Steps } from './steps';

/**
 * Input rules in place, cell by cell: a host may store one rule for several areas or split one. A rule is
 * compared for what it lets in, and for whether it stops or only warns; its texts are a note if they differ.
 */
export function* checkRules({ sheet }: SheetView, planned: readonly Validation[]): Steps<Finding[]> {
  const actual = byCell(sheet.validations);
  const found: Finding[] = [];
  for (const plan of planned) {
    const cells = cellsOf(plan.range);
    const wrong: Finding[] = [];
    yield* inSteps(cells, (at) => {
      const finding = checkRule(sheet.name, at, cells[0]!, plan, actual.get(at));
      if (finding) wrong.push(finding);
    });
    // One sentence if the whole range has lost its rule.
    if (wrong.length === cells.length && cells.length > 1) {
      found.push({ ...wrong[0]!, at: plan.range, message: wrong[0]!.message.replace(cells[0]!, plan.range) });
    } else for (const finding of wrong) found.push(finding);
  }
  const known = new Set(planned.flatMap(({ range }) => cellsOf(range)));
  for (const [at, { rule }] of actual) {
    if (known.has(at)) continue;
    found.push({
      sheet: sheet.name,
      at,
      kind: 'validation',
      severity: 'note',
      message: `${at} has an input rule that is not of its layout.`,
      expected: 'no rule',
      found: ruleWords(rule.rule),
    });
  }
  return found;
}

interface Placed {
  readonly validation: Validation;
  readonly rule: { readonly rule: ValidationRule; readonly first: string };
}

/** More cells than rules of ours cover; a stranger's rule for a whole column is cut short here. */
const CELLS = AREA_MAX;

function byCell(validations: readonly Validation[]): Map<string, Placed> {
  const found = new Map<string, Placed>();
  for (const validation of validations) {
    const { range, rule } = validation;
    if (!isAddress(range)) continue;
    if (cellCount(range) > CELLS) continue;
    const cells = cellsOf(range);
    for (const at of cells) found.set(at, { validation, rule: { rule, first: cells[0]! } });
  }
  return found;
}

function checkRule(
  sheet: string,
  at: string,
  first: string,
  plan: Validation,
  actual: Placed | undefined,
): Finding | undefined {
  const where = { sheet, at, kind: 'validation', expected: ruleWords(plan.rule) } as const;
  if (!actual) {
    return {
      ...where,
      severity: 'warning',
      message: `${at} has lost its input rule.`,
      found: 'no rule',
      remedy: 'restore-validation',
    };
  }
  const { validation, rule } = actual;
  if (ruleKey(plan.rule, first) !== ruleKey(rule.rule, rule.first)) {
    return {
      ...where,
      severity: 'warning',
      message: `The input rule of ${at} was altered.`,
      found: ruleWords(rule.rule),
      remedy: 'restore-validation',
    };
  }
  if (validation.refusal.style !== plan.refusal.style) {
    return {
      ...where,
      severity: 'warning',
      message: `The input rule of ${at} no longer stops a wrong entry.`,
      expected: plan.refusal.style,
      found: validation.refusal.style,
      remedy: 'restore-validation',
    };
  }
  const [wanted, came] = [textsOf(plan), textsOf(validation)];
  if (wanted === came) return undefined;
  return {
    ...where,
    severity: 'note',
    message: `The words of the input rule of ${at} were altered.`,
    expected: wanted,
    found: came,
    remedy: 'restore-validation',
  };
}

function textsOf({ prompt, refusal }: Validation): string {
  return [prompt.title, prompt.message, refusal.title, refusal.message]
    .join(' / ')
    .replace(/\s+/g, ' ')
    .trim();
}

/** A rule as one text; equal texts let in the same. */
export function ruleKey(rule: ValidationRule, first: string): string {
  return rule.type === 'formula' ? keyOnce(`${first} ${rule.formula}`) : plainKey(rule);
}

const keyOnce = once((text) => {
  const [first = ''] = text.split(' ', 1);
  return `formula ${relative(text.slice(first.length + 1), first)}`;
});

function plainKey(rule: Exclude<ValidationRule, { type: 'formula' }>): string {
  switch (rule.type) {
    case 'number':
      return `number ${rule.min ?? ''}..${rule.max ?? ''}${rule.whole ? ' whole' : ''}`;
    case 'list':
      return `list ${JSON.stringify(rule.choices.map((choice) => choice.trim()))}`;
    case 'date':
      return `date ${rule.min}..`;
    case 'length':
      return `length ..${rule.max}`;
  }
}

function ruleWords(rule: ValidationRule): string {
  switch (rule.type) {
    case 'number':
      return `a ${rule.whole ? 'whole ' : ''}number from ${rule.min ?? 'anything'} to ${rule.max ?? 'anything'}`;
    case 'list':
      return `one of ${rule.choices.join(', ')}`;
    case 'date':
      return `a date from ${rule.min}`;
    case 'length':
      return `at most ${rule.max} characters`;
    case 'formula':
      return rule.formula;
  }
}
