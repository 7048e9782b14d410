import { DRAW_METHOD } from '../procurement/lot/draw';
import { PlanBuilder } from './builder';
import type { Plan } from './plan';
import { FORMAT } from './run/layout';
import { putNotes } from './run/notes';
import { validateRanges, validateReadings } from './run/readings';
import { putLines } from './spot/lines';
import { spotOrder } from './spot/order';
import { putReference } from './spot/reference';
import type { SpotSetup } from './spot/setup';
import { putTable } from './spot/table';

/** Layout version of spot check sheets. */
export const SPOT_VERSION = 4;

const METHOD =
  'Spot check: one reading at the centre of the image in white, red, green and blue, unit after unit, at one place and one image size. ' +
  'Relative figures only: a centre reading says nothing of the rest of the image, so nothing here is in lumens. For lumens measure a run.';

const CAUTION =
  'Eyes first: never look into the lens or put your head in the beam. Let a unit warm up before its reading, and cool before it is moved; unplug before you touch what is inside. ' +
  'The maker’s manual, the site’s rules and local law come first; leave what needs a licence to those who hold one.';

const DOUBT =
  'Putting the meter back to the same place alone moves a reading by a per cent or two; differences that small are no differences. Plain formulas only: they work in every spreadsheet program.';

/**
 * Centre readings of two to twelve units side by side.
 * @param id unique to this sheet, lower-case letters and digits
 * @throws if the units are too few, too many, unnamed or listed twice; the message says which
 */
export function spotPlan(setup: SpotSetup, id: string): Plan {
  const order = spotOrder(setup.units, setup.seed);
  if (!order.ok) throw new Error(order.problems.map(({ message }) => message).join(' '));
  const b = new PlanBuilder();
  b.wide('A1:Q1', { role: 'title', value: 'Spot check: centre readings side by side' }).height(1, 26);
  b.wide('A2:Q2', { role: 'note', value: METHOD }).height(2, 32);
  b.wide('A3:Q3', { role: 'caution', value: CAUTION }).height(3, 32);
  let row = putLines(b, 5, setup);
  row = putDraw(b, row, setup);
  row = putDerived(b, row, setup) + 1;
  const rows = putTable(b, row, setup, order.value);
  b.scale({ range: rows.range('whiteRelative'), low: '#C9D6E8', high: '#F2C879' });
  b.scale({ range: rows.range('colourRelative'), low: '#C9D6E8', high: '#F2C879' });
  row = putReference(b, rows.next, rows);
  b.wide(`A${row + 1}:Q${row + 1}`, { role: 'note', value: DOUBT }).height(row + 1, 26);
  putNotes(b, row + 2, 'L');
  return b.build({
    kind: 'spot',
    version: SPOT_VERSION,
    id,
    title: `Spot check ${setup.title}`.trim(),
    columns: rows.widths,
    print: { orientation: 'landscape' },
    start: rows.range('White').split(':')[0]!,
    freeze: { rows: 1, columns: 0 },
  });
}

/** How the order came about, so that it can be repeated. */
function putDraw(b: PlanBuilder, row: number, { seed }: SpotSetup): number {
  b.put(`A${row}`, { role: 'label', value: 'Order of the units' });
  b.wide(`B${row}:F${row}`, { role: 'derived', value: seed ?? 'as listed', format: FORMAT.text });
  b.name('SpotSeed', `B${row}`, 'Seed that the order was drawn from, or "as listed"');
  b.wide(`G${row}:Q${row}`, {
    role: 'check',
    value: seed === undefined ? 'Not drawn.' : `Drawn from the seed on the left. ${DRAW_METHOD}`,
  });
  b.height(row, seed === undefined ? 15 : 26);
  return row + 1;
}

/** Lux per unit, and the room's own light. */
function putDerived(b: PlanBuilder, row: number, { ambient, meter }: SpotSetup): number {
  b.put(`A${row}`, { role: 'label', value: 'Lux per unit of display' });
  // One footcandle is 1 ÷ 0.3048² lx (NIST SP 811, appendix B).
  b.put(`B${row}`, { role: 'derived', formula: '=IF(MeterUnit="fc",1/0.3048^2,1)', format: FORMAT.general });
  b.name('LuxPerUnit', `B${row}`, 'Lux per unit of display');
  const r = row + 1;
  b.put(`A${r}`, { role: 'label', value: 'Ambient light, centre' });
  if (!ambient) {
    b.put(`B${r}`, { role: 'derived', value: 0, format: FORMAT.lux }).name('AmbientLux', `B${r}`, AMBIENT);
    b.wide(`C${r}:Q${r}`, { role: 'check', value: 'lx. Not measured: taken as 0 lx.' });
    return r + 1;
  }
  b.put(`B${r}`, { role: 'reading', format: FORMAT.general }).name(
    'AmbientReadings',
    `B${r}`,
    'Ambient: number on the display',
  );
  b.put(`C${r}`, { role: 'factor', value: meter.range }).name(
    'AmbientRange',
    `C${r}`,
    'Ambient: range factor',
  );
  validateReadings(b, `B${r}`, 'Ambient');
  validateRanges(b, `C${r}`);
  b.put(`D${r}`, {
    role: 'derived',
    formula: `=IF(COUNT(B${r})*COUNTIF(C${r},">0")=0,"",B${r}*C${r}*LuxPerUnit*CalibrationFactor)`,
    format: FORMAT.lux,
  }).name('AmbientLux', `D${r}`, AMBIENT);
  b.wide(`E${r}:Q${r}`, {
    role: 'check',
    value: 'lx: display, range factor and illuminance from left to right; taken off every reading below.',
  });
  return r + 1;
}

const AMBIENT = 'Ambient illuminance, lx';

export { spotOrder } from './spot/order';
export { SPOT_UNITS, type SpotSetup } from './spot/setup';
