import { parseArgs } from 'node:util';
import { Failure } from './failure';

const FORMATS = ['text', 'csv', 'json'] as const;
type Format = (typeof FORMATS)[number];

/** A command line, checked as far as it does not depend on the command. */
export interface CommandLine {
  readonly command: string;
  readonly files: readonly string[];
  /** Options that were given. */
  readonly given: readonly OptionName[];
  readonly sheets: readonly string[];
  readonly cell?: string;
  readonly format: Format;
  readonly key?: string;
  readonly output?: string;
  readonly force: boolean;
  /** Whether links of other sheets go to the new sheet. */
  readonly links: boolean;
  readonly who?: string;
  readonly why?: string;
  readonly digits: number;
  readonly template?: string;
  readonly serials?: string;
  readonly seed?: string;
  readonly lot?: string;
  readonly label?: string;
  readonly sql?: string;
  /** The serial number of a unit. */
  readonly ageing?: string;
  readonly accepted: boolean;
  readonly mode?: string;
  readonly help: boolean;
  readonly version: boolean;
}

const TEXT = { type: 'string' } as const;
const FLAG = { type: 'boolean', default: false } as const;

/** @throws Failure for an option that does not exist or has no value. */
export function readCommandLine(args: readonly string[]): CommandLine {
  const { values, positionals } = parse(args);
  const [command = '', ...files] = positionals;
  const format = values.format ?? 'text';
  if (!isFormat(format)) throw new Failure(`The format is "${format}"; it must be text, csv or json.`);
  const digits = Number(values.digits ?? 7);
  if (!Number.isInteger(digits) || digits < 1 || digits > 17) {
    throw new Failure(`The number of digits is "${values.digits}"; it must be a whole number from 1 to 17.`);
  }
  return {
    command,
    files,
    given: Object.entries(values).flatMap(([option, value]) =>
      value === false || option === 'help' || option === 'version'
        ? []
        : [(option === 'sheet' ? 'sheets' : option) as OptionName],
    ),
    sheets: values.sheet ?? [],
    format,
    digits,
    force: values.force,
    links: values.links,
    help: values.help,
    version: values.version,
    ...(values.cell === undefined ? {} : { cell: values.cell }),
    ...(values.key === undefined ? {} : { key: values.key }),
    ...(values.output === undefined ? {} : { output: values.output }),
    ...(values.who === undefined ? {} : { who: values.who }),
    ...(values.why === undefined ? {} : { why: values.why }),
    ...(values.template === undefined ? {} : { template: values.template }),
    ...(values.serials === undefined ? {} : { serials: values.serials }),
    ...(values.seed === undefined ? {} : { seed: values.seed }),
    ...(values.lot === undefined ? {} : { lot: values.lot }),
    ...(values.label === undefined ? {} : { label: values.label }),
    accepted: values.accepted,
    ...(values.sql === undefined ? {} : { sql: values.sql }),
    ...(values.ageing === undefined ? {} : { ageing: values.ageing }),
    ...(values.mode === undefined ? {} : { mode: values.mode }),
  };
}

const OPTIONS = {
  sheet: { type: 'string', multiple: true },
  cell: TEXT,
  format: TEXT,
  key: TEXT,
  output: { type: 'string', short: 'o' },
  force: FLAG,
  links: FLAG,
  who: TEXT,
  why: TEXT,
  digits: TEXT,
  template: TEXT,
  serials: TEXT,
  seed: TEXT,
  lot: TEXT,
  label: TEXT,
  sql: TEXT,
  ageing: TEXT,
  accepted: FLAG,
  mode: TEXT,
  help: { ...FLAG, short: 'h' },
  version: { ...FLAG, short: 'V' },
} as const;

function parse(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], allowPositionals: true, options: OPTIONS });
  } catch (error) {
    const code = error instanceof TypeError ? String((error as NodeJS.ErrnoException).code) : '';
    if (!code.startsWith('ERR_PARSE_ARGS')) throw error;
    throw new Failure(inPlainWords(code, (error as TypeError).message), 'light --help shows how.');
  }
}

/** Node's own words speak of positional arguments and argument values. */
function inPlainWords(code: string, message: string): string {
  const option = /'([^' ]+)/.exec(message)?.[1]?.replace(/,$/, '') ?? '';
  const long = /--[\w-]+/.exec(message)?.[0] ?? option;
  if (code.endsWith('UNKNOWN_OPTION')) return `There is no option ${option}.`;
  return /does not take an argument/.test(message)
    ? `The option ${long} takes no value.`
    : `The option ${long} needs a value.`;
}

/** Options a command may take, as they are called in a CommandLine. */
export type OptionName = Exclude<keyof CommandLine, 'command' | 'files' | 'given' | 'help' | 'version'>;

/** Refuses an option that would be passed over. @throws Failure */
export function checkTaken({ command, given }: CommandLine, taken: readonly OptionName[]): void {
  const stray = given.find((option) => !taken.includes(option));
  if (stray === undefined) return;
  throw new Failure(
    `light ${command} does not take --${stray === 'sheets' ? 'sheet' : stray}.`,
    `light ${command} --help shows what it takes.`,
  );
}

function isFormat(format: string): format is Format {
  return FORMATS.some((each) => each === format);
}

/** Ends what is said of a command that was called with too little. */
const HOW = 'light COMMAND --help shows what a command needs.';

/** An option that a command cannot do without. */
export function needed(value: string | undefined, option: string): string {
  if (value === undefined || value === '') {
    throw new Failure(`The option ${option} is missing.`, HOW);
  }
  return value;
}

/** The one sheet a command is about. */
export function oneSheet({ sheets }: CommandLine): string {
  const [sheet, ...others] = sheets;
  if (others.length > 0) throw new Failure('The option --sheet may be given only once here.');
  return needed(sheet, '--sheet');
}

/** Exactly as many files as a command takes. */
export function oneFile({ command, files }: CommandLine): string {
  const [file, ...others] = files;
  if (file === undefined) throw new Failure(`light ${command} needs a file.`, HOW);
  if (others.length > 0)
    throw new Failure(`light ${command} takes one file; "${others[0]}" is one too many.`);
  return file;
}
