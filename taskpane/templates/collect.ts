import type { SheetReading } from '../../src/excel/host';
import type { TenderPart } from '../../src/procurement/wording/tender';
import type { TemplateFile } from '../../src/template/template';
import { countingOf } from '../accept/form';
import { acceptOf } from '../accept/state';
import { isFit } from '../form/read';
import { needOf } from '../need/state';
import { isBlankRoom } from '../need/understoodroom';
import { nameOf } from '../need/view';
import { offersOf } from '../offers/state';
import { cellOf } from '../run/cell';
import { newRunOf } from '../run/newrun';
import { assembleFields, assembleImage, assembleMeter } from '../setup/assemble';
import type { FieldId } from '../setup/field';
import { FIELDS } from '../setup/fields';
import type { Store } from '../store';

/** The set-up of the steps as a template has it. */
export interface Collected {
  readonly parts: Omit<TemplateFile, 'format' | 'version' | 'title' | 'note' | 'sheets'>;
  /** What is taken, in words, step by step. */
  readonly taken: readonly string[];
  /** What stands in a step and cannot be taken as it is; whole sentences. */
  readonly problems: readonly string[];
}

/** Paragraphs that may be kept as edited: the first one names figures and is written anew for every need. */
const EDITABLE = [
  'method',
  'conditions',
  'decision',
  'lot',
  'answer',
] as const satisfies readonly TenderPart[];

/** Names of the paragraphs on a need sheet. */
export const PARAGRAPH_NAMES = EDITABLE.map(nameOf);

/** Fields of the form that belong to one unit or one day, and not to a template. */
const OWN: ReadonlySet<FieldId> = new Set<FieldId>([
  'projector',
  'serial',
  'mode',
  'place',
  'measuredBy',
  'date',
  'ratedWhite',
  'ratedColour',
  'known',
  'lengthUnit',
  'length',
  'aspect',
  'width',
  'height',
  'top',
  'right',
  'bottom',
  'left',
  'falling',
  'rising',
]);

/** @param need the need sheet whose words are kept where they differ; undefined keeps none */
export function collect(store: Store, need: SheetReading | undefined): Collected {
  const taken: string[] = [];
  const problems: string[] = [];
  const parts = {
    ...fromNeed(store, need, taken, problems),
    ...fromOffers(store, taken, problems),
    ...fromMeasure(store, taken, problems),
  };
  return { parts, taken, problems };
}

function fromNeed(store: Store, need: SheetReading | undefined, taken: string[], problems: string[]) {
  const step = needOf(store);
  const begun = step.rooms.value.filter(({ form }) => !isBlankRoom(form.texts.value));
  const unfit = begun.filter(({ understood }) => !understood.setup).length;
  if (unfit > 0)
    problems.push(`Need: ${unfit === 1 ? 'one room needs' : `${unfit} rooms need`} another look there.`);
  const rooms = begun.flatMap(({ understood }) => understood.setup ?? []);
  taken.push(
    rooms.length === 0
      ? 'Need: no rooms; the sheet gets empty lines'
      : `Need: ${rooms.length} ${rooms.length === 1 ? 'room' : 'rooms'} with their reserves`,
  );
  const { isFit, aql, inspection } = step.understoodTender.value;
  const { texts, reads } = step.tender;
  const units = reads.value.units.value;
  if (!isFit) problems.push('Need: the words for the tender need another look there.');
  const paragraphs = need ? editedParagraphs(store, need) : {};
  const edited = Object.keys(paragraphs).length;
  if (edited > 0)
    taken.push(`Need: ${edited === 1 ? 'one paragraph' : `${edited} paragraphs`} as on “${need!.sheet}”`);
  return {
    rooms,
    wording: { standard: texts.value.standard.trim(), paragraphs },
    sample: {
      ...(units === undefined ? {} : { units }),
      aql,
      ...inspection,
    },
  };
}

/** Paragraphs of the need sheet that are not those the fields of the step would write now. */
export function editedParagraphs(store: Store, need: SheetReading): Partial<Record<TenderPart, string>> {
  const step = needOf(store);
  const words = step.understoodTender.value.words(step.largest.value ?? { white: 1, colour: 1 });
  return Object.fromEntries(
    EDITABLE.flatMap((part) => {
      const text = String(cellOf(need, nameOf(part)) ?? '').trim();
      const written = words.ok ? words.value[part] : '';
      return text !== '' && text !== written ? [[part, text]] : [];
    }),
  );
}

function fromOffers(store: Store, taken: string[], problems: string[]) {
  const { asked } = offersOf(store);
  const [texts, reads] = [asked.texts.value, asked.reads.value];
  const known = (['years', 'hoursPerYear', 'tariff'] as const).flatMap((id) => {
    const { value } = reads[id];
    if (value !== undefined) return [[id, value] as const];
    if (texts[id].trim() !== '' && !isFit(reads[id]))
      problems.push('Offers: the plan of use needs another look there.');
    return [];
  });
  const currency = texts.currency.trim();
  taken.push('Offers: the plan of use');
  return { use: { ...Object.fromEntries(known), currency } };
}

function fromMeasure(store: Store, taken: string[], problems: string[]) {
  const { form } = newRunOf(store);
  const [texts, reads] = [form.texts.value, form.reads.value];
  const unfit = form.unfit.value.filter((id) => !OWN.has(id));
  if (unfit.length > 0) problems.push(`Run: “${FIELDS[unfit[0]!].label}” needs another look there.`);
  const meter = assembleMeter(texts, reads);
  const image = assembleImage(texts, reads);
  const { gain, standard, colour, ambient, black, checkerboard, corners, repeats, uncertainty } =
    assembleFields(texts, reads);
  const { level, rule: _rule, ...doubts } = uncertainty;
  const { tender, understoodTender } = needOf(store);
  const { rule } = understoodTender.value;
  const fraction = tender.reads.value.fraction.value;
  taken.push(
    `Run: ${meter?.name ? `the meter “${meter.name}”` : 'the meter'}, what is measured, how sure${image ? ', the image' : ''}`,
    'Need: standard, least part, rule and sample plan of the tender; Sample of a lot: how decisions count',
  );
  return {
    ...(meter ? { meter } : {}),
    measuring: {
      ...(image ? { image } : {}),
      ...{ gain, standard, colour, ambient, black, checkerboard, corners, repeats },
    },
    uncertainty: doubts,
    decision: {
      // The tender's words and the run sheets must say the same.
      rule,
      level,
      ...(fraction === undefined ? {} : { leastPart: fraction / 100 }),
      counting: countingOf(acceptOf(store).form.texts.value.counting),
    },
  };
}
