import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { light as run } from './light';

/** The commands that the README and the list of commands speak of. */
const COMMANDS = [
  ...['build', 'example', 'template', 'check', 'results', 'trace'],
  ...['seal', 'verify', 'reopen', 'plain', 'key'],
];
let folder: string;
const light = (...args: string[]) => run(folder, ...args);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'light-help-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** The words of a command line, quotation marks taken off, up to where its output would go to a file. */
function wordsOf(line: string): string[] {
  return [...line.replace(/ > .*/, '').matchAll(/"([^"]*)"|(\S+)/g)].map(
    ([, quoted, bare]) => quoted ?? bare!,
  );
}

/** Lines of a text from one that begins so to the end of the paragraph, without what is before `from`. */
function block(text: string, from: string): string {
  const at = text.indexOf(from);
  expect(at, from).toBeGreaterThan(0);
  return text.slice(at).split(/\n(?!\s)/)[0]!;
}

describe('help', () => {
  it('lists the commands on a page that fits a terminal', async () => {
    const { code, out, err } = await light('--help');
    expect([code, err]).toEqual([0, '']);
    for (const command of COMMANDS) expect(out).toMatch(new RegExp(`^  ${command} `, 'm'));
    expect(out).toMatch(/^Exit codes\n {2}0 .*\n {2}1 .*\n {2}2 /m);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(110);
    // Without a command the same page is an answer to a mistake.
    expect(await light()).toMatchObject({ code: 2, out: '', err: `${out}\n` });
  });

  it.each(COMMANDS)(
    'light %s --help tells arguments, options, exit codes and an example',
    async (command) => {
      const { code, out, err } = await light(command, '--help');
      expect([code, err]).toEqual([0, '']);
      expect(out).toMatch(new RegExp(`^light ${command}: .+\n\nUsage\n  light ${command} .+`));
      expect(out).toMatch(/^Arguments and options\n(?: {2}\S.* {2}.+\n)+/m);
      expect(out).toMatch(/^Exit codes\n {2}0 {2}.+\n(?: {2}1 {2}.+\n)? {2}2 {2}.+\n/m);
      expect(out).toMatch(new RegExp(`\nExample\n  light ${command} .+\n$`));
      for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(110);
      // Every option it lists is taken: what is refused is a file that is missing.
      const listed = [...out.matchAll(/^ {2}(?:-\w, )?(--[a-z]+)( [A-Z]+)? /gm)].filter(
        ([, option]) => option !== '--help',
      );
      for (const option of out.slice(0, out.indexOf('Arguments')).match(/--[a-z]+/g) ?? [])
        expect(listed.map(([, each]) => each)).toContain(option);
      const values: Readonly<Record<string, string>> = { '--format': 'json', '--digits': '3' };
      const all = listed.flatMap(([, option = '', value]) =>
        value ? [option, values[option] ?? 'no/x'] : [option],
      );
      const tried = await light(command, 'no/a', ...all);
      expect(tried.code).toBe(2);
      expect(tried.err).toMatch(/cannot be (?:read|written)|one too many/);
    },
    60_000,
  );
});

it('the examples of the help, from an empty folder to a copy that is handed over', async () => {
  const helps = new Map<string, string>();
  for (const command of COMMANDS) helps.set(command, (await light(command, '--help')).out);
  const helpOf = (command: string) => helps.get(command)!;
  const build = helpOf('build');
  await writeFile(join(folder, 'run.json'), block(build, '{"projector"'));
  await writeFile(
    join(folder, 'readings.csv'),
    block(build, 'field,point,reading,range').replace(/^ +/gm, ''),
  );
  await writeFile(join(folder, 'bid.json'), block(helpOf('template'), '{"format"'));
  await writeFile(join(folder, 'lot.txt'), 'A-1\nA-2\nA-3\n');
  const done: Record<string, string> = {};
  for (const command of COMMANDS) {
    const example = helpOf(command).split('\nExample\n')[1]!.trim();
    const { code, out, err } = await light(...wordsOf(example).slice(1));
    expect(code, `${example}\n${err}`).toBe(0);
    done[command] = out;
  }
  expect(done.trace).toMatch(/^White light output = /);
  // What is over range is named once, with what to do.
  expect(done.check!.match(/over range/g)).toHaveLength(1);
  expect(done.check).toMatch(/remedy: {3}Look at the reading/);
  expect(done.verify).toMatch(/the seal holds/);
  expect(done.results).toMatch(/^sheet,kind,name,label,value,unit,cell,by\r\n/);
  expect(done.template).toMatch(/^Reading room: \d+ sheets\n/);
}, 180_000);

describe('what is wrong is said in one line, with what to do below', () => {
  it.each<[string, string[], string, string]>([
    [
      'a slip of the pen',
      ['chekc'],
      'There is no command "chekc"; did you mean check?',
      'light --help lists',
    ],
    [
      'a command cut short',
      ['result'],
      'There is no command "result"; did you mean results or reopen or register or repair?',
      'light --help',
    ],
    ['no command at all', ['x7'], 'There is no command "x7".', 'light --help lists the commands.'],
    ['a name of every object', ['constructor'], 'There is no command "constructor".', 'light --help'],
    [
      'an unknown option',
      ['check', 'a.xlsx', '--shet', 'x'],
      'There is no option --shet.',
      'light --help shows how.',
    ],
    ['a letter that is none', ['check', 'a.xlsx', '-x'], 'There is no option -x.', 'light --help shows how.'],
    [
      'an option without a value',
      ['check', 'a.xlsx', '--sheet'],
      'The option --sheet needs a value.',
      'light --help',
    ],
    [
      'an option for a value',
      ['check', 'a.xlsx', '--sheet', '--force'],
      'The option --sheet needs a value.',
      'light',
    ],
    [
      'a short option without one',
      ['build', 'a.json', '-o'],
      'The option --output needs a value.',
      'light --help',
    ],
    [
      'a value too many',
      ['check', 'a.xlsx', '--force=1'],
      'The option --force takes no value.',
      'light --help',
    ],
    [
      'an option of another command',
      ['check', 'a.xlsx', '--cell', 'B2'],
      'light check does not take --cell.',
      'light check --help shows what it takes.',
    ],
    [
      'a sheet where all are meant',
      ['plain', 'a.xlsx', 'b.xlsx', '--sheet', 'x'],
      'light plain does not take --sheet.',
      'light plain --help',
    ],
    ['no such file', ['check', 'no.xlsx'], 'no.xlsx cannot be read: there is no such file.', ''],
    ['a folder', ['check', '.'], '. cannot be read: it is a folder.', ''],
    [
      'no such folder',
      ['key', 'no/mine'],
      'no/mine.private.jwk cannot be written: the folder it should be in is not there.',
      '',
    ],
    [
      'no file',
      ['results'],
      'light results needs a file.',
      'light COMMAND --help shows what a command needs.',
    ],
  ])('%s', async (_, args, first, then) => {
    const { code, out, err } = await light(...args);
    expect([code, out]).toEqual([2, '']);
    const [line, remedy = '', ...rest] = err.trimEnd().split('\n');
    expect(line).toBe(`light: ${first}`);
    expect(remedy.trim().startsWith(then)).toBe(true);
    expect(rest).toEqual([]);
  });
});
