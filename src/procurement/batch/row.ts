import { type Verdict, verdictAbove } from '../../metrology/decision';
import { type DecisionRule, ruleOf } from '../../metrology/rules';
import { isOverRange } from '../../photometry/overrange';
import { ABSURD_LUX, isBlank, type RawCell } from '../../photometry/reading';
import { BATCH_KEYS, type BatchKey, type BatchReadings, countOf, isCentre, pointsOf, SAYS } from './columns';

/** How uncertain white or colour of a row is. */
export interface Spread {
  /** Relative expanded uncertainty as stated by the user; the rest is then not used. */
  readonly stated?: number;
  /** Coverage factor. */
  readonly k: number;
  /** Relative standard uncertainty of what all rows share: meter, image, drift … */
  readonly shared: number;
  /** Standard uncertainty from the display's digits, lx at range factor 1. */
  readonly digits: number;
  /** Standard uncertainty from the ambient light, lx. */
  readonly ambient: number;
  /** And further by this part of the row's ambient light. */
  readonly ambientPart: number;
  /** Relative standard uncertainty of red, green and blue each on its own. */
  readonly own: readonly number[];
}

/** What all rows of a batch are computed with. */
export interface BatchTerms {
  readonly readings: BatchReadings;
  /** Image area, m²; not used where only the centre is read. */
  readonly area: number;
  /** Lux per unit of the display with calibration and spectral correction, field by field. */
  readonly factors: readonly number[];
  /**
   * What of each factor corrects the projector's light alone: spectral correction × factor for the sensor's place. The
   * ambient light that a reading holds is as much too large or too small by it as the rest. 1 where left out.
   */
  readonly lights?: readonly number[];
  /** Centre illuminance of the reference unit, lx, and its light output, lm. */
  readonly reference: {
    readonly white?: number;
    readonly colour?: number;
    readonly whiteOutput?: number;
    readonly colourOutput?: number;
  };
  /** Least light output, lm; or least part of the reference unit. */
  readonly limits: { readonly white?: number; readonly colour?: number };
  readonly white: Spread;
  readonly colour?: Spread;
  readonly rule: DecisionRule;
}

/** A row as its cells hold it. 0 is how an empty cell arrives, and no reading of a lit field. */
export interface BatchCells {
  readonly serial: RawCell;
  readonly readings: readonly RawCell[];
  readonly range: RawCell;
  /** Ambient illuminance, lx. */
  readonly ambient: RawCell;
}

export type BatchRow = Readonly<Partial<Record<BatchKey, number | string>>>;

/** A field's or a group's part of a row: the numbers, or what to say instead of a result. */
interface Part {
  readonly net: readonly number[];
  readonly instead?: string;
}

const isPositive = (cell: RawCell): cell is number =>
  typeof cell === 'number' && cell > 0 && cell < Number.POSITIVE_INFINITY;
const isError = (cell: RawCell) => typeof cell === 'object' && cell !== null;
const isNumber = (value: number | string | undefined): value is number => typeof value === 'number';

/** Results of one row. Nothing is ever averaged over fewer readings; a row says what it lacks. */
export function batchRow(terms: BatchTerms, cells: BatchCells): BatchRow {
  const { readings } = terms;
  const points = pointsOf(readings);
  const state = stateOf(terms, cells);
  const part = (first: number, count: number) => partOf(terms, cells, state === '', first, count);
  const fields = terms.factors.map((_, f) => part(f * points, points));
  const light = isCentre(readings) ? centreLight(terms, part) : nineLight(terms, fields, part);
  const whiteU = expandedOf(terms, 'white', light, cells);
  const colourU = expandedOf(terms, 'colour', light, cells);
  const whiteVerdict = verdict(light.white, whiteU, terms.limits.white, terms.rule);
  const colourVerdict = verdict(light.colour, colourU, terms.limits.colour, terms.rule);
  const judged = [
    ...(terms.limits.white === undefined ? [] : [whiteVerdict]),
    ...(terms.limits.colour === undefined ? [] : [colourVerdict]),
  ];
  const decision = state === '' ? '' : decisionOf(judged);
  const row: Record<string, number | string> = {
    state,
    ...light,
    whiteU,
    colourU,
    whiteVerdict,
    colourVerdict,
    decision,
  };
  return Object.fromEntries(BATCH_KEYS[readings].map((key) => [key, row[key] ?? '']));
}

/** What ambient light makes of each lux of a field's readings. */
const lightOf = ({ lights }: BatchTerms, field: number): number => lights?.[field] ?? 1;

/** "complete", or what the row lacks; empty for a line nobody has begun. */
function stateOf(terms: BatchTerms, cells: BatchCells): string {
  const { readings, factors, reference } = terms;
  const needed = countOf(readings);
  let [taken, over, wrong] = [0, 0, 0];
  for (const cell of cells.readings) {
    if (isBlank(cell) || cell === 0) continue;
    if (isPositive(cell)) taken++;
    else if (isOverRange(cell)) over++;
    else wrong++;
  }
  const hasSerial = !isBlank(cells.serial) && cells.serial !== 0;
  if (taken < needed) {
    if (!hasSerial && taken + over + wrong === 0) return '';
    return `${wrong > 0 ? `${wrong} ${SAYS.notReading}; ` : ''}${over > 0 ? `${over} ${SAYS.over}; ` : ''}${taken} of ${needed}`;
  }
  if (!hasSerial) return SAYS.noSerial;
  if (isError(cells.serial)) return SAYS.badSerial;
  if (!isPositive(cells.range)) return SAYS.noRange;
  if (typeof cells.ambient !== 'number') return SAYS.noAmbient;
  if (cells.ambient < 0) return SAYS.badAmbient;
  const isCompared =
    reference.white !== undefined && (factors.length === 1 || reference.colour !== undefined);
  if (isCentre(readings) && !isCompared) return SAYS.noReference;
  const points = pointsOf(readings);
  const lux = (cells.readings as readonly number[]).map(
    (cell, i) => cell * (cells.range as number) * factors[Math.floor(i / points)]!,
  );
  if (Math.max(...lux) > ABSURD_LUX) return SAYS.tooBright;
  const { ambient } = cells;
  const isBelow = lux.some((one, i) => one < ambient * lightOf(terms, Math.floor(i / points)));
  return isBelow ? SAYS.ambientExceeds : SAYS.complete;
}

/** Net illuminances of some of a row's readings. */
function partOf(
  terms: BatchTerms,
  { readings: cells, range, ambient }: BatchCells,
  isEmpty: boolean,
  first: number,
  count: number,
): Part {
  const { readings, factors } = terms;
  const own = cells.slice(first, first + count);
  const taken = own.filter(isPositive);
  if (taken.length < count) return { net: [], instead: isEmpty ? '' : `${taken.length} of ${count}` };
  if (!isPositive(range) || typeof ambient !== 'number' || ambient < 0)
    return { net: [], instead: SAYS.seeState };
  const points = pointsOf(readings);
  const field = (i: number) => Math.floor((first + i) / points);
  const gross = taken.map((cell, i) => cell * range * factors[field(i)]!);
  const dark = taken.map((_, i) => ambient * lightOf(terms, field(i)));
  if (gross.some((lux, i) => lux > ABSURD_LUX || lux < dark[i]!)) return { net: [], instead: SAYS.seeState };
  return { net: gross.map((lux, i) => lux - dark[i]!) };
}

type Light = Readonly<Partial<Record<BatchKey, number | string>>>;
type PartAt = (first: number, count: number) => Part;

const sumOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);

/** Light output, mean of nine × area; colour is red + green + blue. */
function nineLight({ area, factors }: BatchTerms, fields: readonly Part[], part: PartAt): Light {
  const output = ({ net, instead }: Part) => instead ?? (sumOf(net) / 9) * area;
  const white = output(fields[0]!);
  const { net } = fields[0]!;
  const uniformity = isNumber(white) && white > 0 ? Math.min(...net) / Math.max(...net) : '';
  if (factors.length === 1) return { white, uniformity };
  const [red, green, blue] = fields.slice(1).map(output);
  const colour =
    isNumber(red) && isNumber(green) && isNumber(blue)
      ? red + green + blue
      : (part(9, 27).instead ?? SAYS.seeState);
  return { white, uniformity, red: red!, green: green!, blue: blue!, colour, ratio: ratioOf(colour, white) };
}

/** The centre as a part of the reference unit's centre; lumens only as an estimate from that unit's full run. */
function centreLight({ reference, factors }: BatchTerms, part: PartAt): Light {
  const group = (found: Part, against: number | undefined) =>
    found.instead ?? (against === undefined ? SAYS.seeState : sumOf(found.net) / against);
  const estimate = (value: number | string, output: number | undefined) =>
    isNumber(value) && output !== undefined ? value * output : '';
  const whitePart = part(0, 1);
  const white = group(whitePart, reference.white);
  const whiteEstimate = estimate(white, reference.whiteOutput);
  if (factors.length === 1) return { white, whiteEstimate };
  const colourPart = part(1, 3);
  const colour = group(colourPart, reference.colour);
  return {
    white,
    whiteEstimate,
    colour,
    colourEstimate: estimate(colour, reference.colourOutput),
    ratio: ratioOf(colourPart.instead ?? sumOf(colourPart.net), whitePart.instead ?? sumOf(whitePart.net)),
  };
}

function ratioOf(colour: number | string, white: number | string): number | string {
  return isNumber(colour) && isNumber(white) && white > 0 ? colour / white : '';
}

/** U = k·u; digits and ambient light bear on the illuminance, the rest on the result. */
function expandedOf(
  { readings, area, reference, ...spreads }: BatchTerms,
  of: 'white' | 'colour',
  light: Light,
  { range, ambient }: BatchCells,
): number | string {
  const [value, spread] = [light[of], spreads[of]];
  if (!isNumber(value) || !spread) return '';
  if (spread.stated !== undefined) return spread.stated * value;
  const perLux = isCentre(readings) ? 1 / reference[of]! : area;
  const { digits, ambientPart } = spread;
  const room = spread.ambient + ambientPart * (ambient as number);
  const lux = (digits * (range as number)) ** 2 + room ** 2;
  const parts = of === 'colour' ? [light.red, light.green, light.blue] : [];
  const each = parts.map((part, i) => (isNumber(part) ? ((spread.own[i] ?? 0) * part) ** 2 : 0));
  return spread.k * Math.sqrt((spread.shared * value) ** 2 + lux * perLux ** 2 + sumOf(each));
}

function verdict(
  value: number | string | undefined,
  expanded: number | string,
  limit: number | undefined,
  rule: DecisionRule,
): Verdict | '' {
  if (!isNumber(value) || !isNumber(expanded) || limit === undefined) return '';
  const { guard, outcomes } = ruleOf(rule);
  return verdictAbove(value, limit, guard.kind === 'none' ? 0 : expanded, outcomes);
}

const FROM_WORST: readonly Verdict[] = ['fail', 'conditional fail', 'conditional pass', 'pass'];

/** The worse of what is judged; a unit that fails in one figure fails, whatever is still to be measured. */
function decisionOf(judged: readonly (Verdict | '')[]): string {
  if (judged.length === 0) return SAYS.noLimit;
  if (judged.includes('fail')) return 'fail';
  if (judged.includes('')) return SAYS.toMeasure;
  return FROM_WORST.find((one) => judged.includes(one))!;
}
