import { CORNER_NAMES, GRID_NAMES } from '../../photometry/points';
import { cellsOf, rectOf } from '../address';
import { block, type PlanBuilder, shift } from '../builder';
import { FORMAT } from './layout';
import { lightOf } from './lightof';
import { ambientAtCentre, ambientOf, type FieldContext, nameGrid, putNet } from './net';
import {
  above0,
  anyNumber,
  type GridSpec,
  putInputs,
  stateFormula,
  validateRanges,
  validateReadings,
} from './readings';

/** Readings, range factors and illuminances of a grid that stands by itself, beside each other. */
type Three = [readings: string, ranges: string, lux: string];

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
  b.wide(`J${row}:P${row}`, net === undefined ? { role: 'heading' } : { role: 'heading', value: net });
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
  const [readings, ranges, lux] = ['B', 'F', 'J'].map((column) =>
    block(column, row + 1, grid.rows, grid.columns),
  ) as Three;
  putInputs(b, grid, readings, ranges);
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
  const [readings, ranges, net] = ['B', 'F', 'J'].map((column) => block(column, row + 1, 2, 2)) as Three;
  putInputs(b, spec, readings, ranges);
  // A corner's ambient is the nearest grid point's.
  const nearest = [0, 2, 6, 8];
  const ambient = ambientOf(context);
  const own = (i: number) =>
    context.ambient === 'nine points' ? shift(`J${row + 3}`, Math.floor(i / 2), i % 2) : 'AmbientLux';
  putNet(b, { readings, ranges, net }, 'Corner', own, above0);
  nameGrid(b, spec, { readings, ranges, net });
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
  b.wide(`J${row}:P${row}`, { role: 'heading', value: 'board' });
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
    `(AVERAGE(${cells.join(',')})*BoardRange*LuxPerUnit*CalibrationFactor-AmbientMean)*${lightOf('Board')}+AmbientMean`;
  const lit = (yes: readonly string[], no: readonly string[]) =>
    `=IF(COUNT(BoardReadings,AmbientMean)<17,"",IF(BoardTopLeft="white",${mean(yes)},${mean(no)}))`;
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
export function putDrift(b: PlanBuilder, row: number, { range, ambient }: FieldContext): number {
  const spec: GridSpec = {
    stem: 'Last',
    title: 'White centre, at the end',
    rows: 1,
    columns: 1,
    range,
    names: ['centre'],
  };
  putHeading(b, row, spec.title, 'number on the display', 'illuminance, lx');
  const [readings, ranges] = [`B${row + 1}`, `F${row + 1}`];
  putInputs(b, spec, readings, ranges);
  const dark = ambientAtCentre(ambient);
  b.put(`A${row + 1}`, {
    role: 'check',
    formula: `=IF(${above0(readings)}=1,"taken","to do, at the end of the run")`,
  });
  b.put(`J${row + 1}`, {
    role: 'derived',
    formula: `=IF(${above0(readings)}*COUNTIF(${ranges},">0")*COUNT(${dark})=0,"",(${readings}*${ranges}*LuxPerUnit*CalibrationFactor-${dark})*${lightOf('White')}+${dark})`,
    format: FORMAT.lux,
  });
  b.name('LastReading', readings, 'White centre at the end: number on the display');
  b.name('LastRange', ranges, 'White centre at the end: range factor');
  b.innerName('LastIlluminance', `J${row + 1}`, 'White centre at the end, ambient included, lx');
  return row + 2;
}
