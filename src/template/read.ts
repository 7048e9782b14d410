import * as v from 'valibot';
import { contradictions } from './contradictions';
import { FORMAT, TEMPLATE, VERSION } from './schema';
import { MOST_CHARACTERS, shapeProblem } from './shape';
import type { Template } from './template';

export type Read =
  | { readonly ok: true; readonly template: Template }
  /** Whole sentences; where a field is at fault they begin with its path. */
  | { readonly ok: false; readonly problems: readonly string[] };

/** More are not read by anybody. */
const MOST_PROBLEMS = 20;

/** The text of a file, or of a name in a workbook → the template, or why it is none. Nothing of it is trusted. */
export function readTemplate(text: string): Read {
  if (text.length > MOST_CHARACTERS)
    return bad(`A template has at most ${MOST_CHARACTERS} characters; this file has ${text.length}.`);
  let json: unknown;
  try {
    // Editors of some systems put a mark in front.
    json = JSON.parse(text.replace(/^\ufeff/, ''));
  } catch (error) {
    return bad(`This file is not valid JSON: ${(error as Error).message}`);
  }
  return checkTemplate(json);
}

/** The same for what has been parsed already. */
export function checkTemplate(json: unknown): Read {
  const shape = shapeProblem(json);
  if (shape) return bad(`This is no template: ${shape}`);
  if (typeof json !== 'object' || json === null || Array.isArray(json))
    return bad('This is no template: it must be an object with fields, {"format": …}.');
  const { format, version } = json as { format?: unknown; version?: unknown };
  if (format !== FORMAT)
    return bad(`This is no template: its field "format" must be "${FORMAT}"; it is ${shown(format)}.`);
  if (typeof version === 'number' && version > VERSION)
    return bad(
      `This template is of version ${version}, made by a newer program; this one reads version ${VERSION}. Nothing of it was taken.`,
    );
  const result = v.safeParse(TEMPLATE, json);
  if (!result.success) return tooMany(result.issues.map(sentence));
  const against = contradictions(result.output);
  return against.length > 0 ? tooMany(against) : { ok: true, template: result.output };
}

function bad(...problems: readonly string[]): Read {
  return { ok: false, problems };
}

function tooMany(problems: readonly string[]): Read {
  const left = problems.length - MOST_PROBLEMS;
  return bad(...problems.slice(0, MOST_PROBLEMS), ...(left > 0 ? [`And ${left} more.`] : []));
}

/** What is wrong with one field: where, what it must be and what it is. */
export function sentence(issue: v.BaseIssue<unknown>): string {
  const path = pathOf(issue);
  if (issue.type === 'strict_object' && issue.expected === 'never')
    return `${path}: there is no such field; ${issue.message}.`;
  const isMissing = issue.received === 'undefined' && issue.input === undefined;
  if (isMissing) return `${path}: it is missing.`;
  const expected = issue.type === 'literal' ? issue.expected : issue.message;
  return `${path}: it must be ${expected}; it is ${shown(issue.input)}.`;
}

/** `rooms[3].width`, as programs that speak of JSON write it. */
function pathOf({ path }: v.BaseIssue<unknown>): string {
  const items = path ?? [];
  const text = items
    .map(({ key, type }) => (type === 'array' ? `[${String(key)}]` : `.${String(key).slice(0, 60)}`))
    .join('');
  return text.replace(/^\./, '') || 'the whole file';
}

/** A value as a message repeats it: short, on one line, nothing invisible. */
function shown(value: unknown): string {
  if (value === undefined) return 'missing';
  if (typeof value === 'object' && value !== null) return Array.isArray(value) ? 'a list' : 'an object';
  const text = JSON.stringify(value).replace(/[^\p{L}\p{M}\p{N}\p{P}\p{S} ]/gu, '\ufffd');
  return text.length > 60 ? `${text.slice(0, 59)}…` : text;
}
