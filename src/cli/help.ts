/** What `light --help` prints. */
export const HELP = `light: light output workbooks without a spreadsheet program

Usage: light COMMAND [FILE] [OPTIONS]

Commands
  build SETUP.json [READINGS.csv] -o OUT.xlsx   a workbook from a set-up and readings, calculated
  build --template FILE.json [READINGS.csv] -o OUT.xlsx
                                                the linked sheets of a template; readings go to its runs
  example OUT.xlsx                              the ready example: a whole purchase on invented data
  template FILE.json                            is it a template, and what would it build?
  check FILE.xlsx                               is everything as built, and right?
  results FILE.xlsx                             the results of every sheet, whatever its kind
  trace FILE.xlsx --sheet NAME --cell CELL      one number back to its readings
  seal FILE.xlsx --sheet NAME --who NAME -o OUT.xlsx
                                                seal a sheet as it stands; with --key, sign the seal
  verify FILE.xlsx                              do the seals hold, and if not, which cells differ?
  reopen FILE.xlsx --sheet NAME --who NAME --why WORDS -o OUT.xlsx
                                                take a seal off, on the record
  plain FILE.xlsx OUT.xlsx                      a copy to hand over that needs no add-in: results of functions
                                                as values, plain formulas live; --who says who made it
  key NAME                                      a new key pair: NAME.private.jwk and NAME.public.jwk

Options
  --sheet NAME       this sheet only; may be given more than once where that makes sense
  --cell CELL        a cell such as B32, or a name such as WhiteLightOutput
  --format FORMAT    text (default), csv or json
  --key FILE         seal: your private key; verify: the public key the seals must be signed with
  -o, --output FILE  where to write; an existing file is kept unless --force is given
  --force            write over an existing file
  --drop             seal, reopen: go on though charts, pictures and other things that this tool does
                     not know are not taken over into the new file
  --template FILE    build: a template of a bid; src/template/light-template.schema.json tells its fields
  --serials FILE     build, template: every unit of the lot, one a line
  --seed TEXT        build, template: seed of the draw, fixed after the list was closed; with --lot NAME
                     and --who NAME it stands on the acceptance sheet
  --label TEXT       build: put before the names of the sheets of a template
  --digits N         trace: significant digits of the numbers, 1 to 17 (default 7)
  -h, --help         this text
  -V, --version      the version

Exit code
  0  it holds: nothing was found but notes
  1  there are findings: errors or warnings, or a seal that does not hold
  2  it could not be done: a file that cannot be read, or a wrong option

Results go to standard output, everything else to standard error.

Every kind of sheet is known: its plan, its formulas, and its results worked out again from what was typed.
JSON and CSV of results have sheet, kind, name, label, value, unit, cell, and by whom it was computed.

SETUP.json holds one run, or {"runs": [...]}; whatever is left out keeps its default:
  {"projector": "Unit 7", "mode": "bright", "measuredBy": "A. Person", "date": "2026-11-25",
   "meter": {"name": "Meter 3", "unit": "lx", "digit": 1, "calibration": 1.02},
   "image": {"shape": "rectangle", "known": "width", "length": 1.6, "unit": "m", "across": 16, "down": 10},
   "rated": {"white": 3200, "minimumFraction": 0.8}, "colour": "full fields", "ambient": "once"}

READINGS.csv has one reading a line; columns field, point, reading and, where needed, range, repeat, run:
  field,point,reading,range
  white,1,248,10
  white,2,over,
  ambient,1,3,
Fields: white red green blue black ambient corner board last, and pattern a, pattern b, pattern c for tiled
colours. Points count from 1, row by row, top left first. With semicolons between the columns, readings may
have a decimal comma.

Examples
  light build run.json readings.csv -o run.xlsx
  light check run.xlsx && light seal run.xlsx --sheet "Run Unit 7" --who "A. Person" -o sealed.xlsx
  light results run.xlsx --format csv > results.csv
  light template bid.json && light build --template bid.json --serials lot.txt --seed "4 2 6 1" -o bid.xlsx
  light trace run.xlsx --sheet "Run Unit 7" --cell WhiteLightOutput
`;
