import type { Template } from './template';

/** A template as the text of a file: every field, in the order of the schema. */
export function writeTemplate(template: Template): string {
  return `${JSON.stringify(template, undefined, 2)}\n`;
}

/** The same as short as it gets, for keeping in a workbook. */
export function packTemplate(template: Template): string {
  return JSON.stringify(template);
}

/** A name for the file: letters, digits and hyphens of the title. */
export function fileNameOf({ title }: Template): string {
  const words = title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return `${words || 'template'}.light-template.json`;
}
