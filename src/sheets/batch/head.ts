import { hasColour, isCentre } from '../../procurement/batch/columns';
import { columnName } from '../address';
import type { PlanBuilder } from '../builder';
import { joined } from '../joined';
import { FORMAT } from '../run/layout';
import { validateRanges, validateReadings } from '../run/readings';
import type { BatchSetup } from './setup';
import type { BlockWriter } from './writer';

/** Where the ambient reading of a batch stands, below the title and what is known, above the headings. */
const AMBIENT_ROW = 4;

/**
 * Title, conditions and how far the batch is, over the table: they stay on the screen while it scrolls.
 * @param last column, from 0, that they reach: what a page across cuts in two nobody reads
 */
export function putHead(b: PlanBuilder, setup: BatchSetup, last: number): void {
  const wide = (row: number) => `A${row}:${columnName(last)}${row}`;
  const isWhole = !isCentre(setup.readings);
  const title = isWhole
    ? 'Batch: light output of many units, one row a unit'
    : 'Batch: centre readings of many units against a reference unit';
  b.wide(wide(1), { role: 'title', value: title }).height(1, 26);
  b.wide(wide(2), { role: 'check', formula: `=${isWhole ? conditions(setup) : centreConditions()}` }).height(
    2,
    26,
  );
  b.wide(wide(3), { role: 'check', formula: `=${SUMMARY}` }).height(3, 15);
  putAmbientRow(b, setup, last);
}

/** What all rows have in common and is read on the day, over the table: nobody has to look for it. */
function putAmbientRow(b: PlanBuilder, { ambient, meter }: BatchSetup, last: number): void {
  const row = AMBIENT_ROW;
  b.height(row, 20);
  if (ambient !== 'once') {
    b.wide(`A${row}:${columnName(last)}${row}`, { role: 'check', value: AMBIENT_WORDS[ambient] });
    return;
  }
  const [reading, range] = [`B${row}`, `E${row}`];
  b.put(`A${row}`, { role: 'label', value: 'Ambient, on the display' });
  b.put(reading, { role: 'reading', format: FORMAT.general }).name(
    'AmbientReadings',
    reading,
    'Ambient, number on the display, with the light of the unit blocked',
  );
  validateReadings(b, reading, 'Ambient', 'beside it');
  b.wide(`C${row}:D${row}`, { role: 'label', value: 'its range factor' });
  b.put(range, { role: 'factor', value: meter.range }).name('AmbientRange', range, 'Ambient, range factor');
  validateRanges(b, range);
  b.wide(`F${row}:${columnName(last)}${row}`, {
    role: 'check',
    formula:
      '=IF(COUNT(AmbientLux)=0,"to be read with the light of the unit blocked: every row waits for it","taken off every reading")',
  });
}

const AMBIENT_WORDS = {
  none: 'Ambient light: not measured, taken as 0 lx.',
  'by row': 'Ambient light: read unit by unit, in a column of the table.',
} as const;

const named = (name: string) => `IF(COUNTA(${name})=0,"not stated",${name})`;
const MODEL = `${named('Projector')}&", mode "&${named('PictureMode')}&". Meter: "&${named('Meter')}&", display in "&MeterUnit`;
const RULE = `". Decision rule: "&DecisionRule&"; level "&${joined('ROUND(100*Level,2)')}&" %. Set-up and budget stand to the right of the table."`;

const AREA = `IF(COUNT(ImageArea)=0,"no area: see the set-up",${joined('ROUND(ImageArea,4)')}&" m²")`;

function conditions({ readings }: BatchSetup): string {
  const limit = (id: string) =>
    `"${id.toLowerCase()} "&IF(COUNT(${id}Limit)=0,"not judged","at least "&${joined(`ROUND(${id}Limit,1)`)}&" lm")`;
  const limits = hasColour(readings) ? `${limit('White')}&", "&${limit('Colour')}` : limit('White');
  return `${MODEL}&". Image "&${joined('ROUND(ImageWidth,3)')}&" × "&${joined('ROUND(ImageHeight,3)')}&" m, "&${AREA}&". Light output = mean of nine × area (ISO/IEC 21118, ISO 11315-1); "&${limits}&${RULE}`;
}

function centreConditions(): string {
  return `${MODEL}&". Relative to "&IF(COUNTA(ReferenceUnit)=0,"a reference unit not named yet",ReferenceUnit)&": a centre reading says nothing of the rest of the image, and no figure is in lumens unless marked as an estimate. At least "&${joined('ROUND(100*WhiteLimit,1)')}&" % of it"&${RULE}`;
}

const SUMMARY =
  'UnitsComplete&" of "&UnitsListed&" units complete: "&UnitsPassing&" pass, "&UnitsConditional&" conditional pass, "&UnitsDoubtful&" conditional fail, "&UnitsFailing&" fail"&IF(RowsDiffering>0,". Function and plain formula differ in "&RowsDiffering&" rows: look before you use the figures.",".")';

/** The same counts as numbers, for other sheets and for the pane. */
export function putSummary(w: BlockWriter): void {
  const lines = [
    ['Units listed', 'UnitsListed', '=COUNTA(Serials)'],
    ['Units complete', 'UnitsComplete', '=COUNTIF(UnitState,"complete")'],
    ['Units that pass', 'UnitsPassing', '=COUNTIF(UnitDecision,"pass")'],
    ['Units with conditional pass', 'UnitsConditional', '=COUNTIF(UnitDecision,"conditional pass")'],
    ['Units with conditional fail', 'UnitsDoubtful', '=COUNTIF(UnitDecision,"conditional fail")'],
    ['Units that fail', 'UnitsFailing', '=COUNTIF(UnitDecision,"fail")'],
    ['Rows where the two differ', 'RowsDiffering', '=COUNTIF(Agreement,"differ")'],
  ] as const;
  w.heading('How far it is', '', '', 'number', '');
  for (const [label, name, formula] of lines) w.derived({ label, name, formula, format: FORMAT.general });
}
