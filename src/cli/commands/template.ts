import { sheetSet } from '../../template/steps';
import { EXIT, type Exit, Failure } from '../failure';
import { type CommandLine, oneFile } from '../options';
import { print, printJson } from '../output';
import { answersOf, templateAt } from '../templatefile';

/** What a template would build, before anything is built. */
export async function template(line: CommandLine): Promise<Exit> {
  if (line.format === 'csv') throw new Failure('The format of light template must be text or json.');
  const found = await templateAt(oneFile(line));
  const { steps, left } = sheetSet(found, await answersOf(line));
  const sheets = steps.map(({ label, links }) => ({ label, links }));
  if (line.format === 'json') printJson({ title: found.title, note: found.note, sheets, left });
  else {
    const lines = sheets.map(({ label, links }, i) => `  ${i + 1}. ${label}${links ? ` (${links})` : ''}`);
    const words = left.map((sentence) => `  - ${sentence}`);
    print(
      [
        `${found.title}: ${steps.length} ${steps.length === 1 ? 'sheet' : 'sheets'}`,
        ...(found.note ? [found.note] : []),
        ...lines,
        ...(words.length > 0 ? ['Left out or cut short:', ...words] : []),
      ].join('\n'),
    );
  }
  return EXIT.holds;
}
