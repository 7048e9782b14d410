import type { OptionName } from './options';

/** What a person is told of one command; its options are those it takes, and no others. */
interface CommandHelp {
  readonly usage: readonly string[];
  /** One line of the list of commands. */
  readonly does: string;
  readonly arguments: readonly (readonly [string, string])[];
  readonly options: readonly OptionName[];
  /** What exit code 0 and, where there can be findings, 1 mean here. */
  readonly holds: string;
  readonly findings?: string;
  readonly more?: string;
  readonly example: string;
}

const WORKBOOK = ['FILE.xlsx', 'a workbook with sheets of this tool'] as const;

export const COMMAND_HELP = {
  build: {
    usage: [
      'build SETUP.json [READINGS.csv] -o OUT.xlsx',
      'build --template BID.json [READINGS.csv] -o OUT.xlsx',
    ],
    does: 'a calculated workbook from a set-up or a template',
    arguments: [
      ['SETUP.json', 'one run, or {"runs": [...]}; see below'],
      ['READINGS.csv', 'one reading a line; see below'],
    ],
    options: ['output', 'force', 'template', 'serials', 'seed', 'lot', 'who', 'label'],
    holds: 'the workbook is written',
    more: `SETUP.json: whatever is left out keeps its default.
  {"projector": "Unit 7", "mode": "bright", "measuredBy": "A. Person", "date": "2026-11-25",
   "meter": {"name": "Meter 3", "unit": "lx", "digit": 1, "calibration": 1.02},
   "image": {"shape": "rectangle", "known": "width", "length": 1.6, "unit": "m", "across": 16, "down": 10},
   "rated": {"white": 3200, "minimumFraction": 0.8}, "colour": "full fields", "ambient": "once"}

READINGS.csv: columns field, point, reading and, where needed, range, repeat, run.
  field,point,reading,range
  white,1,248,10
  white,2,over,
  ambient,1,3,
Fields: white red green blue black ambient corner board last, and pattern a, pattern b, pattern c for tiled
colours. Points count from 1, row by row, top left first. With semicolons or tabs between the
columns, readings may have a decimal comma. The sheet of the run above is called "Run Unit 7 bright".`,
    example: 'light build run.json readings.csv -o run.xlsx',
  },
  example: {
    usage: ['example OUT.xlsx'],
    does: 'the ready example: a whole purchase on invented data',
    arguments: [['OUT.xlsx', 'where to write']],
    options: ['output', 'force'],
    holds: 'the workbook is written',
    example: 'light example example.xlsx',
  },
  template: {
    usage: ['template BID.json'],
    does: 'is it a template, and what would it build?',
    arguments: [['BID.json', 'a template, as the pane gives it out']],
    options: ['format', 'serials', 'seed', 'lot', 'who', 'label'],
    holds: 'it is a template',
    more: `A small template:
  {"format": "light-template", "version": 1, "title": "Reading room",
   "rooms": [{"room": "Room 3", "width": 2, "height": 1.25, "ambient": 50}],
   "sheets": {"need": {}, "offers": {"lines": 3}, "runs": {"for": "rooms"}}}
All its fields are told in src/template/light-template.schema.json.`,
    example: 'light template bid.json --serials lot.txt --seed "4 2 6 1"',
  },
  check: {
    usage: ['check FILE.xlsx'],
    does: 'is everything as built, and right?',
    arguments: [WORKBOOK],
    options: ['sheets', 'format'],
    holds: 'nothing was found but notes',
    findings: 'there are errors or warnings',
    more: `Every cell is held against what was built, and every stored result against its formula, calculated
here. Where one differs, on the sheet or on one it is linked to, all results are worked out again from what
was typed, by the formulas as built and past those that stand there.
What can be put back, and results that are old, "light repair" sees to.`,
    example: 'light check run.xlsx',
  },
  results: {
    usage: ['results FILE.xlsx'],
    does: 'the results of every sheet, whatever its kind',
    arguments: [WORKBOOK],
    options: ['sheets', 'format'],
    holds: 'there are results',
    more: `As text: numbers with six digits, parts as %, lines without a result left out. "(plain formula)" marks the
result of a plain formula where that of the function is missing.
As csv and json: the value as it stands in the cell, a part of 1 and a day as a number, with the columns
sheet, kind, name, label, value, unit, cell, by.`,
    example: 'light results run.xlsx --format csv > results.csv',
  },
  trace: {
    usage: ['trace FILE.xlsx --sheet NAME --cell CELL'],
    does: 'one number back to its readings',
    arguments: [WORKBOOK],
    options: ['sheets', 'cell', 'digits', 'format'],
    holds: 'the cell is there',
    example: 'light trace run.xlsx --sheet "Run Unit 7 bright" --cell WhiteLightOutput',
  },
  seal: {
    usage: ['seal FILE.xlsx --sheet NAME --who NAME -o OUT.xlsx'],
    does: 'seal a sheet as it stands; with --key, sign the seal',
    arguments: [WORKBOOK],
    options: ['sheets', 'who', 'key', 'output', 'force'],
    holds: 'the sheet is sealed',
    example: 'light seal run.xlsx --sheet "Run Unit 7 bright" --who "A. Person" -o sealed.xlsx',
  },
  verify: {
    usage: ['verify FILE.xlsx'],
    does: 'do the seals hold, and if not, which cells differ?',
    arguments: [WORKBOOK],
    options: ['sheets', 'key', 'format'],
    holds: 'every seal holds; a sheet asked for with --sheet has one',
    findings: 'a seal does not hold, or there is none',
    example: 'light verify sealed.xlsx',
  },
  reopen: {
    usage: ['reopen FILE.xlsx --sheet NAME --who NAME --why WORDS -o OUT.xlsx'],
    does: 'take a seal off, on the record',
    arguments: [WORKBOOK],
    options: ['sheets', 'who', 'why', 'output', 'force'],
    holds: 'the sheet is open again',
    example:
      'light reopen sealed.xlsx --sheet "Run Unit 7 bright" --who "A. Person" --why "wrong range" -o open.xlsx',
  },
  repair: {
    usage: ['repair FILE.xlsx -o OUT.xlsx'],
    does: 'puts back what was lost of our sheets',
    arguments: [WORKBOOK],
    options: ['sheets', 'who', 'output', 'force'],
    holds: 'the new file is as built; where nothing was wrong it is a copy',
    findings: 'something is left that a check finds; if nothing could be done about it, no file is written',
    more: `Formulas and fixed words that were overwritten, names that are broken or gone, input rules and protection
follow from the layout and are put back; what was typed stays, and results are calculated anew, also where
they alone are old. What stood in place of what is put back is said, and is nowhere else from then on but
in the old file. Sealed sheets and those of earlier layouts are left. Charts, pictures and parts of other
programs stay.`,
    example: 'light repair damaged.xlsx -o repaired.xlsx',
  },
  update: {
    usage: ['update FILE.xlsx --sheet NAME -o OUT.xlsx'],
    does: 'a new sheet beside one of an earlier layout',
    arguments: [WORKBOOK],
    options: ['sheets', 'links', 'who', 'output', 'force'],
    holds: 'the new sheet is in the new file',
    more: `The new sheet is built from what was typed on the older one, which stays. A further sheet lists what differs and
why. Links of other sheets stay with the older one unless --links is given; sealed sheets keep theirs.`,
    example: 'light update old.xlsx --sheet "Run Unit 7 bright" -o new.xlsx',
  },
  register: {
    usage: [
      'register FOLDER -o OUT.parquet|OUT.csv|OUT.jsonl',
      'register FOLDER --sql QUESTION',
      'register FOLDER --accepted',
      'register FOLDER --ageing SERIAL -o OUT.xlsx',
    ],
    does: 'the results of all workbooks of a folder as one table',
    arguments: [['FOLDER', 'workbooks, also in folders of it']],
    options: ['output', 'force', 'sql', 'format', 'accepted', 'ageing', 'mode'],
    holds: 'every workbook was read',
    findings: 'some could not be read: each has a line that says why',
    more: `A line for each result, with the columns
  workbook sha256 sheet kind layout projector serial mode date hours person quantity label value words u k unit
  lower_limit decision seal sealed_by cell error
Beside the register a file OUT.kept is written: workbooks that have not changed,
byte for byte, are not looked at again.
.parquet, --sql and --accepted need the SQL engine that npm installs along; .csv and .jsonl do not.`,
    example: `light register measured --sql "SELECT serial, value, u FROM register WHERE quantity = 'WhiteLightOutput'"`,
  },
  plain: {
    usage: ['plain FILE.xlsx OUT.xlsx'],
    does: 'a copy to hand over that needs no add-in',
    arguments: [WORKBOOK, ['OUT.xlsx', 'where to write the copy']],
    options: ['who', 'output', 'force'],
    holds: 'the copy is written',
    more: 'Results of functions stand as values in the copy; plain formulas stay.',
    example: 'light plain run.xlsx plain.xlsx',
  },
  key: {
    usage: ['key NAME'],
    does: 'a new key pair to sign seals with',
    arguments: [['NAME', 'writes NAME.private.jwk, to keep, and NAME.public.jwk, to give on']],
    options: ['force'],
    holds: 'both files are written',
    example: 'light key mine',
  },
} as const satisfies Readonly<Record<string, CommandHelp>>;

export type Command = keyof typeof COMMAND_HELP;

export function isCommand(name: string): name is Command {
  return Object.hasOwn(COMMAND_HELP, name);
}

const OPTION_HELP: Readonly<Record<OptionName, readonly [string, string]>> = {
  sheets: ['--sheet NAME', 'this sheet only; may be given several times'],
  cell: ['--cell CELL', 'a cell such as B32, or a name such as WhiteLightOutput'],
  format: ['--format FORMAT', 'text (default), csv or json'],
  key: ['--key FILE', 'a key file that "light key" made'],
  output: ['-o, --output FILE', 'where to write; an existing file is kept unless --force is given'],
  force: ['--force', 'write over an existing file'],
  links: ['--links', 'let links of other sheets go to the new sheet'],
  who: ['--who NAME', 'who does it'],
  why: ['--why WORDS', 'why it is done'],
  digits: ['--digits N', 'significant digits of the numbers, 1 to 17 (default 7)'],
  template: ['--template FILE', 'a template of a bid instead of a set-up'],
  serials: ['--serials FILE', 'every unit of the lot, one a line'],
  seed: ['--seed TEXT', 'seed of the draw, fixed after the list was closed'],
  lot: ['--lot NAME', 'the lot, for the acceptance sheet'],
  label: ['--label TEXT', 'put before the names of the sheets'],
  sql: ['--sql QUESTION', 'answer a question about the table "register"'],
  ageing: ['--ageing SERIAL', 'write the ageing sheet of a unit over all workbooks'],
  accepted: ['--accepted', 'show what was accepted, by whom'],
  mode: ['--mode NAME', 'with --ageing: in this picture mode only'],
};
/** Where an option means something else than usual. */
const OWN: Readonly<Record<string, string>> = {
  'trace sheets': 'the sheet the cell is on',
  'seal sheets': 'the sheet to seal',
  'seal key': 'your private key, to sign with',
  'reopen sheets': 'the sheet to open',
  'verify key': 'the public key that the seals must be signed with',
  'template format': 'text (default) or json',
  'template who': 'who draws the sample',
  'build who': 'who draws the sample',
  'register format': 'of an answer: text (default), csv or json',
  'plain who': 'who makes the copy',
  'update sheets': 'the sheet to bring up to date',
};

const FAILED = 'it could not be done: a file that cannot be read, or a wrong option';

/** What `light --help` prints. */
export function help(): string {
  const commands = Object.values(COMMAND_HELP).flatMap(({ usage, does }: CommandHelp) =>
    usage.length === 1 && usage[0]!.length <= 42
      ? [`  ${usage[0]!.padEnd(44)}  ${does}`]
      : [...usage.map((line) => `  ${line}`), `  ${''.padEnd(44)}  ${does}`],
  );
  return `light: light output workbooks without a spreadsheet program

Usage: light COMMAND [FILE] [OPTIONS]; from this folder, npm run light -- COMMAND [FILE] [OPTIONS]

Commands
${commands.join('\n')}

light COMMAND --help tells a command's arguments, options, exit codes and an example.
light --version tells the version.

Exit codes
  0  done, and it holds: nothing was found but notes
  1  there are findings: errors or warnings, or a seal that does not hold
  2  ${FAILED}

Results go to standard output, everything else to standard error.
`;
}

/** What `light COMMAND --help` prints. */
export function commandHelp(name: Command): string {
  const command: CommandHelp = COMMAND_HELP[name];
  const rows = [
    ...command.arguments,
    ...command.options.map((option) => {
      const [form, words] = OPTION_HELP[option];
      return [form, OWN[`${name} ${option}`] ?? words] as const;
    }),
    ['-h, --help', 'this text'] as const,
  ];
  const width = Math.max(...rows.map(([form]) => form.length));
  return `light ${name}: ${command.does}

Usage
${command.usage.map((line) => `  light ${line}`).join('\n')}

Arguments and options
${rows.map(([form, words]) => `  ${form.padEnd(width)}  ${words}`).join('\n')}

Exit codes
  0  ${command.holds}
${command.findings ? `  1  ${command.findings}\n` : ''}  2  ${FAILED}
${command.more ? `\n${command.more}\n` : ''}
Example
  ${command.example}
`;
}
