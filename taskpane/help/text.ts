import type { FunctionRecord } from '../../src/functions/record';
import { WHY_COLOUR } from './colour';
import { fieldHelp } from './fields';
import { STEPS } from './steps';
import { TERMS } from './terms';

/** All of the help as one text in Markdown, to keep, print or read without the pane. */
export function helpText(functions: readonly Pick<FunctionRecord, 'id' | 'summary' | 'example'>[]): string {
  const steps = STEPS.flatMap(({ title, what, needs, how, after }) => [
    `### ${title}`,
    what,
    ...(needs ? [`At hand: ${needs}`] : []),
    how.map((line, i) => `${i + 1}. ${line}`).join('\n'),
    `Then: ${after}`,
  ]);
  const list = (lines: readonly string[]) => lines.map((line) => `- ${line}`).join('\n');
  return `${[
    '# Help',
    '## Why colour is not white',
    ...WHY_COLOUR,
    '## Step by step',
    ...steps,
    '## The fields of a run',
    list(fieldHelp().map(({ label, why }) => `**${label}**: ${why}`)),
    '## Functions',
    'Each with its formula and source: see the page of functions.',
    list(functions.map(({ id, summary, example }) => `**LIGHT.${id}**: ${summary} \`${example}\``)),
    '## Terms',
    list(TERMS.map(({ term, meaning, source }) => `**${term}**: ${meaning} (${source})`)),
  ].join('\n\n')}\n`;
}
