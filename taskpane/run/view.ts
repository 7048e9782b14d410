import type { SheetReading } from '../../src/excel/host';
import { DRIFT_LIMIT } from '../../src/photometry/drift';
import { NOTHING } from '../../src/photometry/plausibility';
import type { CellName } from '../../src/sheets/names/all';
import { percent } from '../capture/guards/light';
import { fieldsOf, type LostField, lostFields } from './fields';
import { type FieldProgress, type Place, progressOf } from './progress';
import { type Agreement, agreementOf, hasError, type ResultView, resultsOf } from './results';
import { type SureView, sureOf } from './sure';

/** A run as the result card shows it. */
export interface RunView {
  readonly sheet: string;
  readonly about: string;
  readonly fields: readonly FieldProgress[];
  /** Fields that cannot be found any more. */
  readonly lost: readonly LostField[];
  /** White and colour readings: those the light output needs. */
  readonly done: number;
  readonly of: number;
  /** The reading to take next: missing before over range, white and colour before the rest. */
  readonly next: { readonly label: string; readonly place: Place } | undefined;
  readonly results: readonly ResultView[];
  readonly ratio: RatioWords | undefined;
  /** What the light output waits for although white and colour are read; empty while it does not. */
  readonly waitsFor: string;
  /** Uncertainties and decisions. */
  readonly sure: SureView;
  readonly agreement: Agreement;
  /** What the sheet remarks on readings that are all there. */
  readonly remarks: readonly string[];
  /** The program shows #NAME?: the formulas were there before the add-in was. */
  readonly needsRefresh: boolean;
  readonly isCalculating: boolean;
}

interface RatioWords {
  readonly text: string;
  readonly sentence: string;
}

export function viewOf(reading: SheetReading): RunView {
  const fields = fieldsOf(reading).map((field) => progressOf(field, reading));
  const main = fields.filter(({ field }) => field.isMain);
  const sum = (pick: (progress: FieldProgress) => number) =>
    main.reduce((total, one) => total + pick(one), 0);
  const lost = lostFields(reading);
  const unseen = lost.reduce((all, { isMain, shape }) => all + (isMain ? shape.rows * shape.columns : 0), 0);
  const results = resultsOf(reading);
  return {
    sheet: reading.sheet,
    about: [textOf(reading, 'Projector'), textOf(reading, 'PictureMode')].filter(Boolean).join(', '),
    fields,
    done: sum(({ done }) => done),
    lost,
    of: sum(({ of }) => of) + unseen,
    next: nextOf([...main, ...fields]),
    results,
    ratio: ratioWords(results),
    waitsFor: waitsFor(fields),
    sure: sureOf(reading),
    agreement: agreementOf(reading),
    remarks: [...remarksOf(reading, fields), ...driftRemark(reading)],
    needsRefresh: hasError(reading, '#NAME?'),
    isCalculating: hasError(reading, '#BUSY!'),
  };
}

/** A reading that every other one rests on is easily forgotten: it is no part of the count. */
function waitsFor(fields: readonly FieldProgress[]): string {
  const ambient = fields.find(({ field }) => field.stem === 'Ambient');
  const isRead = fields.every(({ field, done, of }) => !field.isMain || done === of);
  if (!isRead || !ambient || ambient.done === ambient.of) return '';
  return ambient.of === 1
    ? 'Waits for the ambient reading, which is taken off every other one.'
    : `Waits for ${ambient.of - ambient.done} ambient readings, which are taken off the others.`;
}

function nextOf(fields: readonly FieldProgress[]): RunView['next'] {
  for (const kind of ['missing', 'over'] as const) {
    const waiting = fields.find((progress) => progress[kind].length > 0);
    if (waiting) return { label: waiting.field.label, place: waiting[kind][0]! };
  }
  return undefined;
}

function textOf({ values }: SheetReading, name: CellName): string {
  const value = values[name]?.values[0]?.[0];
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}

/** While readings are missing the remark only lists them, which the pane does itself, with places to go to. */
function remarksOf(reading: SheetReading, fields: readonly FieldProgress[]): string[] {
  const patterns = fields.filter(({ field }) => field.name.startsWith('Pattern'));
  const isComplete = (stem: string) => {
    const own = fields.filter(
      ({ field }) => field.name === `${stem}Readings` || field.name.startsWith(`${stem}Repeat`),
    );
    const asked = own.length > 0 ? own : patterns;
    return asked.length > 0 && asked.every(({ done, of }) => done === of);
  };
  const about = new Map<string, string[]>();
  for (const stem of ['White', 'Red', 'Green', 'Blue', 'Black'] as const) {
    const remark = textOf(reading, `${stem}Remarks`);
    if (remark && remark !== NOTHING && isComplete(stem))
      about.set(remark, [...(about.get(remark) ?? []), about.has(remark) ? stem.toLowerCase() : stem]);
  }
  // A remark says of which fields it is, once; some name their own.
  const namesItself = (remark: string, [stem, ...others]: readonly string[]) =>
    others.length === 0 && remark.toLowerCase().includes(stem!.toLowerCase());
  return [...about].map(([remark, stems]) =>
    namesItself(remark, stems) ? remark : `${stems.join(', ')}: ${remark}`,
  );
}

/** The window that takes readings asks at once; one that was typed into its cell is told of here. */
function driftRemark({ values }: SheetReading): string[] {
  const drift = values.Drift?.values[0]?.[0];
  if (typeof drift !== 'number' || Math.abs(drift) <= DRIFT_LIMIT) return [];
  const [last, factor] = [values.LastReading, values.LastRange].map((one) => one?.values[0]?.[0]);
  const read = `${last} in range \u00d7 ${factor}`;
  // A change so large is a slip: of the range, of a digit, or another mode of the projector.
  return Math.abs(drift) > SLIP
    ? [
        `The last white reading (${read}) is ${percent(drift)} off the first at the centre: is it in the right range, and the picture white?`,
      ]
    : [
        `The centre changed by ${percent(drift)} from the first white reading to the last (${read}). Over ${percent(DRIFT_LIMIT)} the run is usually repeated; was the projector warm, and is the mode the same?`,
      ];
}

/** No lamp changes by half while a run is taken (common practice). */
const SLIP = 0.5;

/**
 * Ratios this near to 1 count as "about 1". Ours: a lux meter that errs several per cent in red and blue
 * (CIE class limits) cannot tell 0.95 from 1.
 */
const ABOUT = 0.1;

/** The colour to white ratio in a plain sentence. */
function ratioWords(results: readonly ResultView[]): RatioWords | undefined {
  const ratio = results.find(({ name }) => name === 'ColourToWhite');
  if (ratio?.value === undefined) return undefined;
  return { text: ratio.text, sentence: ratioSentence(ratio.value) };
}

export function ratioSentence(ratio: number): string {
  if (ratio > 1 + ABOUT) {
    return 'More light in colour than in white is unusual. Check the range factors, and that the mode was the same throughout.';
  }
  if (ratio >= 1 - ABOUT) return 'About 1: red, green and blue add up to the white light.';
  return 'Clearly below 1: light is added to white only, so colour pictures are darker than the white figure promises.';
}
