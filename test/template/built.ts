import type { BuiltSheet } from '../../src/sheets/built';
import { filled, type Typed } from '../../src/sheets/filled';
import { freeName } from '../../src/sheets/realize';
import { type Answers, NO_ANSWERS } from '../../src/template/answers';
import { checkTemplate } from '../../src/template/read';
import { type SheetSet, sheetSet } from '../../src/template/steps';
import type { Template, TemplateFile } from '../../src/template/template';

export function templateOf(file: TemplateFile): Template {
  const found = checkTemplate(file);
  if (found.ok) return found.template;
  throw new Error(found.problems.join(' '));
}

export function setOf(file: TemplateFile, answers: Partial<Answers> = {}): SheetSet {
  return sheetSet(templateOf(file), { ...NO_ANSWERS, today: '2026-11-25', ...answers });
}

/** The sheets of a set as a workbook has them, with some cells filled in, by the key of the step. */
export function builtSet({ steps }: SheetSet, typed: Readonly<Record<string, Typed>> = {}): BuiltSheet[] {
  const built = new Map<string, BuiltSheet>();
  for (const [i, { key, make }] of steps.entries()) {
    const plan = make(built, `set${i}`);
    const sheet = freeName(
      plan.title,
      [...built.values()].map((one) => one.sheet),
    );
    built.set(key, { sheet, plan: typed[key] ? filled(plan, typed[key]) : plan });
  }
  return [...built.values()];
}
