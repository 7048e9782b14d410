import { CORNER_NAMES, GRID_NAMES } from '../../photometry/points';
import { type Primary, patternShowing, tilePrimary } from '../../photometry/tiles';
import { cellsOf, rectOf } from '../address';
import { block, type PlanBuilder, shift } from '../builder';
import { FORMAT } from './layout';
import {
  above0,
  anyNumber,
  type GridSpec,
  type IsReading,
  putInputs,
  stateFormula,
  validateRanges,
  validateReadings,
} from './readings';
import { putRepeats, type RepeatedGrid } from './repeats';

/** The fields a run can have, by the stem of their names: `WhiteReadings`, `WhiteRange`, `WhiteNet`. */
export type Stem = 'White' | 'Red' | 'Green' | 'Blue' | 'Black';

function putHeading(
  b: PlanBuilder,
  row: number,
  title: string,
  display: string,
  net: string | undefined,
): void {
  b.put(`A${row}`, { role: 'heading', value: title });
  b.wide(`B${row}:E${row}`, { role: 'heading', value: display });
  b.wide(`F${row}:I${row}`, { role: 'heading', value: 'range factor' });
  b.wide(`J${row}:L${row}`, net === undefined ? { role: 'heading' } : { role: 'heading', value: net });
}

/** Ambient cell that belongs to a reading: one for all, or the one at the same place. */
type AmbientAt = (index: number) => string;

/** Net illuminances: empty until the reading, its range factor and its ambient are all there. */
function putNet(
  b: PlanBuilder,
  row: number,
  spec: GridSpec,
  display: string,
  correction: string,
  ambient: AmbientAt,
  isReading: IsReading,
): string {
  const net = block('J', row, spec.rows, spec.columns);
  const readings = cellsOf(display);
  cellsOf(net).forEach((at, i) => {
    const [reading, range] = [readings[i]!, shift(at, 0, -4)];
    const formula = `=IF(${isReading(reading)}*COUNTIF(${range},">0")*COUNT(${ambient(i)})=0,"",${reading}*${range}*LuxPerUnit*${correction}-${ambient(i)})`;
    b.put(at, { role: 'derived', formula, format: FORMAT.lux });
  });
  return net;
}

/** What is typed has names; what is sorted out of patterns follows from them. */
function nameGrid(
  b: PlanBuilder,
  { stem, title }: GridSpec,
  readings: string,
  ranges: string,
  net: string,
  isSorted = false,
): void {
  const put = (name: string, range: string, words: string) =>
    isSorted ? b.innerName(name, range, words) : b.name(name, range, words);
  put(`${stem}Readings`, readings, `${title}: numbers on the display`);
  put(`${stem}Range`, ranges, `${title}: range factors`);
  b.innerName(`${stem}Net`, net, `${title}: net illuminances, lx`);
}

export interface FieldContext {
  readonly range: number;
  readonly repeats: number;
  readonly ambient: 'none' | 'once' | 'nine points';
  /** First cell of the ambient illuminances. */
  readonly ambientAt: string;
}

/** Ambient of grid point i as an absolute cell. */
function ambientOf({ ambient, ambientAt }: FieldContext): AmbientAt {
  if (ambient !== 'nine points') return () => 'AmbientLux';
  return (i) => shift(ambientAt, Math.floor(i / 3), i % 3);
}

/** For remarks, which must not wait for the ambient reading: 0 until it is there. */
function ambientIfThere({ ambient }: FieldContext): string {
  return ambient === 'none' ? 'AmbientLux' : `IF(COUNT(AmbientMean)=0,0,AmbientLux)`;
}

/** Ambient block: nothing measured, one reading, or nine. Returns the first row below and where it stands. */
export function putAmbient(
  b: PlanBuilder,
  row: number,
  mode: FieldContext['ambient'],
  range: number,
): { next: number; ambientAt: string } {
  const spec = (rows: number, columns: number): GridSpec => ({
    stem: 'Ambient',
    title: 'Ambient',
    rows,
    columns,
    range,
    names: rows === 3 ? GRID_NAMES : ['reading'],
  });
  putHeading(
    b,
    row,
    'Ambient, light blocked',
    mode === 'none' ? 'not measured' : 'number on the display',
    'ambient illuminance, lx',
  );
  const at = `J${row + 1}`;
  if (mode === 'none') {
    b.put(`A${row + 1}`, { role: 'check', value: 'Not measured: taken as 0 lx.' });
    b.put(at, { role: 'derived', value: 0, format: FORMAT.lux });
    b.innerName('AmbientLux', at, 'Ambient illuminance, lx');
    b.name('AmbientMean', at, 'Mean ambient illuminance, lx');
    return { next: row + 2, ambientAt: at };
  }
  const grid = mode === 'once' ? spec(1, 1) : spec(3, 3);
  const { readings, ranges } = putInputs(b, row + 1, grid);
  const lux = block('J', row + 1, grid.rows, grid.columns);
  for (const cell of cellsOf(lux)) {
    const [reading, factor] = [shift(cell, 0, -8), shift(cell, 0, -4)];
    b.put(cell, {
      role: 'derived',
      formula: `=IF(COUNT(${reading})*COUNTIF(${factor},">0")=0,"",${reading}*${factor}*LuxPerUnit*CalibrationFactor)`,
      format: FORMAT.lux,
    });
  }
  b.wide(`A${row + 1}:A${row + grid.rows}`, {
    role: 'check',
    formula: stateFormula(readings, grid.names, anyNumber),
  });
  b.name('AmbientReadings', readings, 'Ambient: numbers on the display, projector light blocked');
  b.name('AmbientRange', ranges, 'Ambient: range factors');
  b.innerName('AmbientLux', lux, 'Ambient illuminance, lx');
  if (mode === 'once') {
    b.name('AmbientMean', lux, 'Mean ambient illuminance, lx');
    return { next: row + 2, ambientAt: at };
  }
  b.put(`A${row + 4}`, { role: 'label', value: 'Mean ambient illuminance' });
  b.put(`J${row + 4}`, {
    role: 'derived',
    formula: '=IF(COUNT(AmbientLux)<9,"",AVERAGE(AmbientLux))',
    format: FORMAT.lux,
  });
  b.name('AmbientMean', `J${row + 4}`, 'Mean ambient illuminance, lx');
  return { next: row + 5, ambientAt: at };
}

/** What the rest of the sheet needs of a field: the cells of each point's readings, repeats included. */
export interface PlacedField {
  readonly next: number;
  readonly cells: readonly (readonly string[])[];
}

/** A field of nine readings: typed in, or sorted out of the tiled patterns. */
export function putField(
  b: PlanBuilder,
  row: number,
  stem: Stem,
  title: string,
  context: FieldContext,
  tiled?: readonly RepeatedGrid[],
): PlacedField {
  const spec: GridSpec = { stem, title, rows: 3, columns: 3, range: context.range, names: GRID_NAMES };
  const isReading = stem === 'Black' ? anyNumber : above0;
  const correction = stem === 'Black' ? 'WhiteCorrection' : `${stem}Correction`;
  putHeading(
    b,
    row,
    title,
    tiled ? 'sorted from the patterns' : 'number on the display',
    'net illuminance, lx',
  );
  const grid = tiled
    ? putSorted(b, row + 1, stem.toLowerCase() as Primary, tiled)
    : putInputs(b, row + 1, spec);
  // Black decides nothing to a per cent; it is read once.
  const repeats = tiled || stem === 'Black' ? 1 : context.repeats;
  const all = putRepeats(b, row + 4, spec, grid.readings, repeats);
  const display = repeats > 1 ? `${stem}Mean` : `${stem}Readings`;
  const net = putNet(b, row + 1, spec, all.range, correction, ambientOf(context), isReading);
  nameGrid(b, spec, grid.readings, grid.ranges, net, tiled !== undefined);
  b.scale({ range: net, low: '#C9D6E8', middle: '#F4F1E6', high: '#F2C879' });
  b.wide(`A${row + 1}:A${row + 3}`, {
    role: 'check',
    formula: stateFormula(all.range, GRID_NAMES, isReading),
  });
  putRemarks(b, all.next, stem, title, display, correction, context);
  return { next: all.next + 1, cells: tiled ? sortedCells(stem.toLowerCase() as Primary, tiled) : all.cells };
}

function putRemarks(
  b: PlanBuilder,
  row: number,
  stem: Stem,
  title: string,
  display: string,
  correction: string,
  context: FieldContext,
): void {
  const call = `IFERROR(LIGHT.FINDINGS("${stem.toLowerCase()}",${display},MeterUnit,${stem}Range,${correction},${ambientIfThere(context)},MeterDigit),"remarks need the add-in")`;
  // Black may read 0, and an empty cell reaches a function as 0: the sheet counts first.
  const remarks = stem === 'Black' ? `IF(COUNT(BlackReadings)<9,"no complete grid yet",${call})` : call;
  b.put(`A${row}`, { role: 'label', value: 'Remarks' });
  // The function stands in a cell of its own, which shows nothing: Excel takes no array result in merged cells, and
  // words over two lines need those.
  b.put(`L${row}`, { role: 'check', formula: `=${remarks}`, format: FORMAT.unseen });
  b.wide(`B${row}:K${row}`, { role: 'check', formula: `=L${row}` });
  b.height(row, 26);
  b.name(`${stem}Remarks`, `B${row}`, `${title}: what is wrong or odd, in words`);
}

/** The three tiled patterns, entered as they lie on the screen. */
export function putPatterns(
  b: PlanBuilder,
  start: number,
  context: FieldContext,
): { next: number; patterns: RepeatedGrid[] } {
  let row = start;
  const patterns = ['A', 'B', 'C'].map((letter, pattern) => {
    const title = `Pattern ${letter}, tiled`;
    putHeading(b, row, title, 'number on the display', undefined);
    const spec: GridSpec = {
      stem: `Pattern${letter}`,
      title,
      rows: 3,
      columns: 3,
      range: context.range,
      names: GRID_NAMES,
    };
    const inputs = putInputs(b, row + 1, spec);
    b.name(`Pattern${letter}`, inputs.readings, `${title}: numbers on the display`);
    b.name(`Pattern${letter}Range`, inputs.ranges, `${title}: range factors`);
    const all = putRepeats(b, row + 4, spec, inputs.readings, context.repeats);
    b.wide(`A${row + 1}:A${row + 3}`, {
      role: 'check',
      formula: stateFormula(all.range, GRID_NAMES, above0),
    });
    cellsOf(block('J', row + 1, 3, 3)).forEach((at, i) => {
      b.put(at, { role: 'derived', value: `${tilePrimary(pattern, Math.floor(i / 3), i % 3)} tile` });
    });
    row = all.next;
    return all;
  });
  return { next: row, patterns };
}

/** Which pattern shows a primary at point i. */
const showing = (primary: Primary, i: number) => patternShowing(primary, Math.floor(i / 3), i % 3);

function sortedCells(primary: Primary, patterns: readonly RepeatedGrid[]): (readonly string[])[] {
  return GRID_NAMES.map((_, i) => patterns[showing(primary, i)]!.cells[i]!);
}

/** The nine readings of one primary, each taken from the pattern that shows it there. */
function putSorted(
  b: PlanBuilder,
  row: number,
  primary: Primary,
  patterns: readonly RepeatedGrid[],
): { readings: string; ranges: string } {
  const readings = block('B', row, 3, 3);
  const ranges = block('F', row, 3, 3);
  const copy = (range: string, of: (pattern: RepeatedGrid) => string, format: string) =>
    cellsOf(range).forEach((at, i) => {
      const source = cellsOf(of(patterns[showing(primary, i)]!))[i]!;
      b.put(at, { role: 'derived', formula: `=IF(ISBLANK(${source}),"",${source})`, format });
    });
  const isMean = patterns[0]!.cells[0]!.length > 1;
  copy(readings, ({ range }) => range, isMean ? FORMAT.mean : FORMAT.general);
  const rangesOf = ({ cells }: RepeatedGrid) => `${shift(cells[0]![0]!, 0, 4)}:${shift(cells[8]![0]!, 0, 4)}`;
  copy(ranges, rangesOf, FORMAT.factor);
  return { readings, ranges };
}

/** Points 10 to 13 of the white field. */
export function putCorners(b: PlanBuilder, row: number, context: FieldContext): number {
  const spec: GridSpec = {
    stem: 'Corner',
    title: 'White, corners (10 to 13)',
    rows: 2,
    columns: 2,
    range: context.range,
    names: CORNER_NAMES,
  };
  putHeading(b, row, spec.title, 'number on the display', 'net illuminance, lx');
  const { readings, ranges } = putInputs(b, row + 1, spec);
  // A corner's ambient is the nearest grid point's.
  const nearest = [0, 2, 6, 8];
  const ambient = ambientOf(context);
  const own = (i: number) =>
    context.ambient === 'nine points' ? shift(`J${row + 3}`, Math.floor(i / 2), i % 2) : 'AmbientLux';
  const net = putNet(b, row + 1, spec, readings, 'WhiteCorrection', own, above0);
  nameGrid(b, spec, readings, ranges, net);
  b.scale({ range: net, low: '#C9D6E8', middle: '#F4F1E6', high: '#F2C879' });
  b.wide(`A${row + 1}:A${row + 2}`, { role: 'check', formula: stateFormula(readings, CORNER_NAMES, above0) });
  if (context.ambient !== 'nine points') return row + 3;
  b.wide(`A${row + 3}:A${row + 4}`, { role: 'note', value: 'Ambient of the nearest of the nine points, lx' });
  nearest.forEach((point, i) => {
    const source = ambient(point);
    b.put(shift(`J${row + 3}`, Math.floor(i / 2), i % 2), {
      role: 'derived',
      formula: `=IF(COUNT(${source})=0,"",${source})`,
      format: FORMAT.lux,
    });
  });
  b.innerName('CornerAmbient', block('J', row + 3, 2, 2), 'Ambient illuminance at the corners, lx');
  return row + 5;
}

/** The 4 × 4 checkerboard: one range factor for the board, so that the grid fits the page. */
export function putBoard(
  b: PlanBuilder,
  row: number,
  range: number,
): { readonly next: number; readonly even: readonly string[]; readonly odd: readonly string[] } {
  const title = 'Checkerboard, 4 × 4';
  b.put(`A${row}`, { role: 'heading', value: title });
  b.wide(`B${row}:I${row}`, { role: 'heading', value: 'number on the display at the tile centres' });
  b.wide(`J${row}:L${row}`, { role: 'heading', value: 'board' });
  const readings = `B${row + 1}:E${row + 4}`;
  const names = Array.from({ length: 16 }, (_, i) => `row ${Math.floor(i / 4) + 1} column ${(i % 4) + 1}`);
  for (const at of cellsOf(readings)) b.put(at, { role: 'reading', format: FORMAT.general });
  validateReadings(b, readings, title);
  b.name('BoardReadings', readings, `${title}: numbers on the display`);
  b.wide(`A${row + 1}:A${row + 4}`, { role: 'check', formula: stateFormula(readings, names, anyNumber) });
  b.wide(`F${row + 1}:H${row + 1}`, { role: 'label', value: 'Range factor' });
  b.put(`J${row + 1}`, { role: 'factor', value: range }).name(
    'BoardRange',
    `J${row + 1}`,
    'Checkerboard: range factor',
  );
  validateRanges(b, `J${row + 1}`);
  b.wide(`F${row + 2}:H${row + 2}`, { role: 'label', value: 'Top left tile is' });
  b.put(`J${row + 2}`, { role: 'choice', value: 'white' }).name(
    'BoardTopLeft',
    `J${row + 2}`,
    'Checkerboard: what the top left tile shows',
  );
  b.validate({
    range: `J${row + 2}`,
    rule: { type: 'list', choices: ['white', 'black'] },
    prompt: { title: 'Top left tile', message: 'What the top left tile of the board shows.' },
    refusal: { title: 'Top left tile', message: 'Choose white or black.', style: 'stop' },
  });
  const tiles = cellsOf(readings);
  const even = tiles.filter((at) => (rectOf(at).row - row + rectOf(at).column - 1) % 2 === 0);
  const odd = tiles.filter((at) => !even.includes(at));
  const mean = (cells: readonly string[]) =>
    `AVERAGE(${cells.join(',')})*BoardRange*LuxPerUnit*WhiteCorrection`;
  const lit = (yes: readonly string[], no: readonly string[]) =>
    `=IF(COUNT(BoardReadings)<16,"",IF(BoardTopLeft="white",${mean(yes)},${mean(no)}))`;
  b.wide(`F${row + 3}:H${row + 3}`, { role: 'label', value: 'Mean of white tiles, lx' });
  b.put(`J${row + 3}`, { role: 'derived', formula: lit(even, odd), format: FORMAT.lux }).innerName(
    'BoardWhite',
    `J${row + 3}`,
    'Checkerboard: mean of white tiles, ambient included, lx',
  );
  b.wide(`F${row + 4}:H${row + 4}`, { role: 'label', value: 'Mean of black tiles, lx' });
  b.put(`J${row + 4}`, { role: 'derived', formula: lit(odd, even), format: FORMAT.lux }).innerName(
    'BoardBlack',
    `J${row + 4}`,
    'Checkerboard: mean of black tiles, ambient included, lx',
  );
  return { next: row + 5, even, odd };
}

/** The centre point of the white field once more, at the end. */
export function putDrift(b: PlanBuilder, row: number, range: number): number {
  const spec: GridSpec = {
    stem: 'Last',
    title: 'White centre, at the end',
    rows: 1,
    columns: 1,
    range,
    names: ['centre'],
  };
  putHeading(b, row, spec.title, 'number on the display', 'illuminance, lx');
  const { readings, ranges } = putInputs(b, row + 1, spec);
  b.put(`A${row + 1}`, {
    role: 'check',
    formula: `=IF(${above0(readings)}=1,"taken","to do, at the end of the run")`,
  });
  b.put(`J${row + 1}`, {
    role: 'derived',
    formula: `=IF(${above0(readings)}*COUNTIF(${ranges},">0")=0,"",${readings}*${ranges}*LuxPerUnit*WhiteCorrection)`,
    format: FORMAT.lux,
  });
  b.name('LastReading', readings, 'White centre at the end: number on the display');
  b.name('LastRange', ranges, 'White centre at the end: range factor');
  b.innerName('LastIlluminance', `J${row + 1}`, 'White centre at the end, ambient included, lx');
  return row + 2;
}
