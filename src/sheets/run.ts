import { PlanBuilder } from './builder';
import type { Plan } from './plan';
import { FROZEN_ROWS, putAnswers, putConditions } from './run/answers';
import { type BandGrid, putBand } from './run/band';
import { putBudgets } from './run/budget';
import { putAmbient, putBoard, putCorners, putDrift } from './run/fields';
import { COLUMNS } from './run/layout';
import type { FieldContext } from './run/net';
import { putNotes } from './run/notes';
import { runResults } from './run/results';
import { putResults } from './run/resultsblock';
import { putSetup } from './run/setup';
import { type BoardCells, type FieldCells, PRIMARY_STEMS } from './run/stems';
import { putUncertainty } from './run/uncertainty';
import type { RunSetup } from './runsetup';

/** Layout version of run sheets; raised with every change of what is built, so that a check knows older sheets for what they are. */
export const RUN_VERSION = 7;

/**
 * The run sheet: one projector in one mode, from set-up and readings to results.
 * @param id unique to this sheet, lower-case letters and digits
 */
export function runPlan(setup: RunSetup, id: string): Plan {
  const b = new PlanBuilder();
  b.wide('A1:P1', { role: 'title', value: 'Run sheet: light output of a front projector' }).height(1, 26);
  let row = putAnswers(b, setup);
  b.wide(`A${row}:P${row}`, { role: 'caution', value: CAUTION }).height(row, 32);
  row = putConditions(b, row + 1);
  const ambient = putAmbient(b, row, setup.ambient, setup.meter.range);
  const context: FieldContext = {
    range: setup.meter.range,
    repeats: setup.repeats,
    ambient: setup.ambient,
    ambientAt: ambient.ambientAt,
  };
  const firstReading = setup.ambient === 'none' ? ambient.next + 1 : row + 1;
  const fields = putFields(b, ambient.next, setup, context);
  b.part(fields.next + 1);
  row = putSetup(b, fields.next + 1, setup);
  b.part(row + 1);
  row = putResults(b, row + 1, runResults(setup), { title: 'Results', agreement: 'Agreement', last: 'P' });
  b.part(row + 1);
  row = putUncertainty(b, row + 1, setup, fields.cells, fields.board);
  // Budgets are an annex.
  row = putBudgets(b.page(row + 1), row + 1, setup);
  const words = leftOut(setup);
  // About 145 letters fit a line.
  const height = 14 * Math.max(2, Math.ceil(words.length / 140));
  b.wide(`A${row + 1}:P${row + 1}`, { role: 'note', value: words }).height(row + 1, height);
  b.wide(`A${row + 2}:P${row + 2}`, { role: 'note', value: METHOD }).height(row + 2, 38);
  putNotes(b, row + 3, 'P');
  return b.build({
    kind: 'run',
    version: RUN_VERSION,
    id,
    title: sheetTitle(setup),
    columns: { ...COLUMNS },
    print: { orientation: 'portrait' },
    start: `B${firstReading}`,
    freeze: { rows: FROZEN_ROWS, columns: 0 },
  });
}

/** The grids of readings; returns the first row below, and the cells of each point for the fields that have repeats. */
function putFields(
  b: PlanBuilder,
  start: number,
  setup: RunSetup,
  context: FieldContext,
): { next: number; cells: FieldCells; board: BoardCells | undefined } {
  const field = (stem: 'White' | 'Black' | (typeof PRIMARY_STEMS)[number]): BandGrid => ({
    kind: 'field',
    stem,
  });
  const black = setup.black ? [field('Black')] : [];
  const primaries = PRIMARY_STEMS.map(field);
  const patterns = [0, 1, 2].map((pattern): BandGrid => ({ kind: 'pattern', pattern }));
  const beside = { none: black, 'full fields': primaries, 'tiled patterns': patterns }[setup.colour];
  const first = putBand(b, start, [field('White'), ...beside], context);
  const sorted = PRIMARY_STEMS.map((stem): BandGrid => ({ kind: 'sorted', stem, patterns: first.patterns }));
  const below = { none: [], 'full fields': black, 'tiled patterns': [...sorted, ...black] }[setup.colour];
  const second = below.length > 0 ? putBand(b.part(first.next), first.next, below, context) : undefined;
  let row = second?.next ?? first.next;
  if (setup.corners) row = putCorners(b, row, context);
  const board = setup.checkerboard ? putBoard(b, row, context.range) : undefined;
  return {
    next: putDrift(b, board?.next ?? row, context),
    cells: { ...first.cells, ...second?.cells },
    board,
  };
}

const METHOD =
  'Light output = mean of nine net illuminances × image area (method of ISO/IEC 21118 and ISO 11315-1); colour light output = red + green + blue. ' +
  'Grids lie as seen facing the screen, top left first. Type the number on the display; range factors stand beside it. SI units throughout.';

const CAUTION =
  'Eyes first: never look into the lens or put your head in the beam; stand aside, meter at arm’s length. Hot lamp housings, mains, cables in the dark and work at height ' +
  'need care. The maker’s manual, the site’s rules and local law come first; leave what needs a licence to those who hold one.';

function sheetTitle({ projector, mode }: RunSetup): string {
  return ['Run', projector, mode].filter(Boolean).join(' ');
}

/** What this run does not tell, in one sentence. */
function leftOut({ colour, black, checkerboard, corners, ambient }: RunSetup): string {
  const missing = [
    ...(colour === 'none' ? ['colour light output'] : []),
    ...(black ? [] : ['sequential contrast']),
    ...(checkerboard ? [] : ['checkerboard contrast']),
    ...(corners ? [] : ['deviation of thirteen points']),
    ...(ambient === 'none' ? ['ambient light'] : []),
  ];
  const list = missing.length > 0 ? `Not measured: ${missing.join(', ')}. ` : '';
  return `${list}A lux meter gives no chromaticity: shares of red, green and blue speak of white balance only if the primaries are those of the standard. The nine-point mean is a convention, not the integral over the image.`;
}

export { runResults } from './run/results';
