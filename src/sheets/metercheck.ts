import { DEFAULT_LEVEL } from '../metrology/words';
import { PlanBuilder } from './builder';
import { type Compared, putErrors } from './metercheck/errors';
import { putLines } from './metercheck/lines';
import { putFound, putLinearityParts } from './metercheck/results';
import type { MeterCheckSetup } from './metercheck/setup';
import { putDistances, putRanges, putRepeats, putSums } from './metercheck/tables';
import {
  CAUTION,
  DISTANCES_HOW,
  METHOD,
  RANGES_HOW,
  REPEATS_HOW,
  SUMS_HOW,
  USE_HOW,
} from './metercheck/words';
import type { Plan } from './plan';
import type { PlacedRows } from './rows';
import { putNotes } from './run/notes';

/** Layout version of meter checks. */
export const METER_CHECK_VERSION = 1;

/** A meter against itself: what its sheet asks for, and what comes of it. */
export function meterCheckPlan(setup: MeterCheckSetup, id: string): Plan {
  const b = new PlanBuilder();
  b.wide('A1:L1', { role: 'title', value: 'Meter check: a meter against itself' }).height(1, 26);
  b.wide('A2:L2', { role: 'note', value: METHOD }).height(2, 45);
  let row = putFound(b, 4);
  b.wide(`A${row}:L${row}`, { role: 'note', value: USE_HOW }).height(row, 45);
  row = putLines(b.part(row + 2), row + 2, setup);
  b.wide(`A${row}:L${row}`, { role: 'caution', value: CAUTION }).height(row, 45);
  row = putHow(b, row + 2, REPEATS_HOW);
  const repeats = putRepeats(b, row);
  row = putCompared(b, repeats.next + 1, RANGES_HOW, (r) => putRanges(b, r, setup), 'Ranges');
  row = putCompared(b, row + 1, DISTANCES_HOW, (r) => putDistances(b, r, setup), 'Distances');
  row = putCompared(b, row + 1, SUMS_HOW, (r) => putSums(b, r, setup), 'Sums');
  row = putLinearityParts(b, row + 1);
  b.put(`A${row}`, { role: 'label', value: 'Level of confidence' });
  b.put(`B${row}`, { role: 'derived', value: DEFAULT_LEVEL, format: '0.00 %' });
  b.name('Level', `B${row}`, 'Level of confidence');
  putNotes(b, row + 2, 'L');
  return b.build({
    kind: 'metercheck',
    version: METER_CHECK_VERSION,
    id,
    title: `Meter check ${setup.meter.name}`.trim(),
    columns: {
      ...Object.fromEntries('BCDEFGHIJKL'.split('').map((column) => [column, 12])),
      A: 30,
    },
    print: { orientation: 'landscape' },
    start: repeats.range('RepeatReadings').split(':')[0]!,
    freeze: { rows: 1, columns: 0 },
  });
}

function putHow(b: PlanBuilder, row: number, words: string): number {
  b.part(row).wide(`A${row}:L${row}`, { role: 'note', value: words }).height(row, 60);
  return row + 1;
}

function putCompared(
  b: PlanBuilder,
  row: number,
  words: string,
  put: (row: number) => PlacedRows,
  id: Compared,
): number {
  return putErrors(b, put(putHow(b, row, words)).next, id);
}

export { defaultMeterCheck, type MeterCheckSetup } from './metercheck/setup';
