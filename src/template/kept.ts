import { partsOf, textNames, textOf } from '../audit/seal/constant';
import type { DefinedName } from '../sheets/book';
import { type Read, readTemplate } from './read';
import type { Template } from './template';
import { packTemplate } from './write';

/** Workbook-scoped, hidden: `LightTemplate_` and eight letters or digits, in as many parts as it needs. */
const KEPT = 'LightTemplate_';
const KEPT_NAME = /^LightTemplate_([a-z0-9]{1,16})$/i;

/** More in one workbook than anybody keeps apart. */
export const MOST_KEPT = 50;

/** A template that a workbook keeps. The workbook may be of another hand, so it is read like any file. */
export interface KeptTemplate {
  readonly id: string;
  readonly read: Read;
}

/** The templates among the names of a workbook, those that can be read first, by title. */
export function keptTemplates(names: readonly DefinedName[]): KeptTemplate[] {
  const found = names.flatMap(({ name }): KeptTemplate[] => {
    const id = KEPT_NAME.exec(name)?.[1]?.toLowerCase();
    if (id === undefined) return [];
    const text = textOf(name, names);
    return [
      {
        id,
        read:
          text === undefined
            ? { ok: false, problems: ['What the workbook keeps of this template is damaged.'] }
            : readTemplate(text),
      },
    ];
  });
  const key = ({ id, read }: KeptTemplate) => (read.ok ? `0${read.template.title.toLowerCase()}` : `1${id}`);
  return found.sort((a, b) => (key(a) < key(b) ? -1 : 1)).slice(0, MOST_KEPT);
}

/** The names that keep a template, and those of an earlier one with its id that go. */
export function keepTemplate(
  id: string,
  template: Template,
  names: readonly DefinedName[],
): { readonly remove: readonly string[]; readonly set: readonly DefinedName[] } {
  const set = textNames(`${KEPT}${id}`, packTemplate(template));
  const kept = new Set(set.map(({ name }) => name.toLowerCase()));
  return { remove: partsOf(`${KEPT}${id}`, names).filter((name) => !kept.has(name.toLowerCase())), set };
}

/** The names of a template that is to be forgotten. */
export function forgetTemplate(id: string, names: readonly DefinedName[]): readonly string[] {
  return partsOf(`${KEPT}${id}`, names);
}
