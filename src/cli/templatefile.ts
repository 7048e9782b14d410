import { MOST_UNITS_READ, SERIAL_MAX, serialsOf } from '../procurement/lot/serials';
import { TEXT_MAX } from '../sheets/setup/fields';
import type { Answers } from '../template/answers';
import { readTemplate } from '../template/read';
import type { Template } from '../template/template';
import { Failure } from './failure';
import { readText } from './files';
import type { CommandLine } from './options';

/** A template file, which may be of anybody's hand. @throws Failure that names every wrong entry */
export async function templateAt(path: string): Promise<Template> {
  const found = readTemplate(await readText(path));
  if (found.ok) return found.template;
  throw new Failure(
    `${path} is not taken as a template. ${found.problems.join(' ')}`,
    'src/template/light-template.schema.json tells what a template holds.',
  );
}

/** What the options say of what a template cannot know. @throws Failure */
export async function answersOf({
  serials,
  seed = '',
  lot = '',
  label = '',
  who = '',
}: CommandLine): Promise<Answers> {
  const given = { seed, lot, label, who };
  for (const [option, text] of Object.entries(given)) {
    if (text.length > TEXT_MAX)
      throw new Failure(`The option --${option} takes at most ${TEXT_MAX} characters.`);
  }
  const list = serials === undefined ? [] : serialsOf(await readText(serials));
  const long = list.find((serial) => serial.length > SERIAL_MAX);
  if (long !== undefined)
    throw new Failure(
      `${serials}: a serial has at most ${SERIAL_MAX} characters; "${long.slice(0, 40)}…" has ${long.length}.`,
    );
  if (list.length > MOST_UNITS_READ)
    throw new Failure(`${serials} lists ${list.length} units; at most ${MOST_UNITS_READ} are read.`);
  return { label, serials: list, lot, seed, drawnBy: who, today: new Date().toISOString().slice(0, 10) };
}
