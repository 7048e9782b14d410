import { version } from '../../package.json';
import { XlsxError } from '../xlsx';
import { build } from './commands/build';
import { check } from './commands/check';
import { example } from './commands/example';
import { key } from './commands/keys';
import { plain } from './commands/plain';
import { results } from './commands/results';
import { reopen, seal } from './commands/seal';
import { template } from './commands/template';
import { trace } from './commands/trace';
import { verify } from './commands/verify';
import { EXIT, type Exit, Failure } from './failure';
import { HELP } from './help';
import { type CommandLine, readCommandLine } from './options';
import { print, say } from './output';

const COMMANDS: Readonly<Record<string, (line: CommandLine) => Promise<Exit>>> = {
  build,
  check,
  example,
  results,
  trace,
  seal: (line) => seal(line, version),
  verify,
  reopen: (line) => reopen(line, version),
  plain: (line) => plain(line, version),
  key,
  template,
};

/** Runs one command line and answers with its exit code. */
export async function main(args: readonly string[]): Promise<Exit> {
  try {
    const line = readCommandLine(args);
    if (line.help || (line.command === '' && !line.version)) {
      if (line.help) print(HELP);
      else say(HELP);
      return line.help ? EXIT.holds : EXIT.failed;
    }
    if (line.version) {
      print(version);
      return EXIT.holds;
    }
    const command = Object.hasOwn(COMMANDS, line.command) ? COMMANDS[line.command] : undefined;
    if (!command)
      throw new Failure(`There is no command "${line.command}".`, 'light --help lists the commands.');
    return await command(line);
  } catch (error) {
    if (!(error instanceof Failure || error instanceof XlsxError)) throw error;
    say(`light: ${error.message}${error.remedy ? `\n       ${error.remedy}` : ''}`);
    return EXIT.failed;
  }
}

// A reader that has seen enough (head, less) closes the pipe: not an error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(EXIT.holds);
  throw error;
});
process.exitCode = await main(process.argv.slice(2));
