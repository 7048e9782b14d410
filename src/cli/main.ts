import { version } from '../../package.json';
import { XlsxError } from '../xlsx';
import { build } from './commands/build';
import { check } from './commands/check';
import { example } from './commands/example';
import { key } from './commands/keys';
import { plain } from './commands/plain';
import { register } from './commands/register';
import { repair } from './commands/repair';
import { results } from './commands/results';
import { reopen, seal } from './commands/seal';
import { template } from './commands/template';
import { trace } from './commands/trace';
import { update } from './commands/update';
import { verify } from './commands/verify';
import { EXIT, type Exit, Failure } from './failure';
import { COMMAND_HELP, type Command, commandHelp, help, isCommand } from './help';
import { type CommandLine, checkTaken, readCommandLine } from './options';
import { print, say } from './output';

const COMMANDS: Readonly<Record<Command, (line: CommandLine) => Promise<Exit>>> = {
  build,
  check,
  example,
  results,
  trace,
  seal: (line) => seal(line, version),
  verify,
  reopen: (line) => reopen(line, version),
  register: (line) => register(line, version),
  repair: (line) => repair(line, version),
  update: (line) => update(line, version),
  plain: (line) => plain(line, version),
  key,
  template,
};

/** Runs one command line and answers with its exit code. */
export async function main(args: readonly string[]): Promise<Exit> {
  try {
    const line = readCommandLine(args);
    const { command } = line;
    if (line.version) {
      print(version);
      return EXIT.holds;
    }
    if (command === '') {
      if (line.help) print(help());
      else say(help());
      return line.help ? EXIT.holds : EXIT.failed;
    }
    if (!isCommand(command)) throw unknown(command);
    if (line.help) {
      print(commandHelp(command));
      return EXIT.holds;
    }
    checkTaken(line, COMMAND_HELP[command].options);
    return await COMMANDS[command](line);
  } catch (error) {
    if (!(error instanceof Failure || error instanceof XlsxError)) {
      say(unforeseen(error));
      return EXIT.failed;
    }
    say(`light: ${error.message}${error.remedy ? `\n       ${error.remedy}` : ''}`);
    return EXIT.failed;
  }
}

/** A fault of this program. With the code for findings, or a trace of the program's own lines, it would tell lies. */
function unforeseen(error: unknown): string {
  const words = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  return `light: Something went wrong that this program did not foresee (${words.slice(0, 500)}).\n       Please report it with the command and, if you may, the file.`;
}

function unknown(command: string): Failure {
  const letters = (word: string) => [...word].sort().join('');
  const near = Object.keys(COMMANDS).filter(
    (name) => name.startsWith(command.slice(0, 2)) || letters(name) === letters(command),
  );
  return new Failure(
    `There is no command "${command}"${near.length > 0 ? `; did you mean ${near.join(' or ')}?` : '.'}`,
    'light --help lists the commands.',
  );
}
