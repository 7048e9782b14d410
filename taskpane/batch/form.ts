import { LUMENS } from '../../src/photometry/bounds';
import { ABSURD_LUX } from '../../src/photometry/reading';
import { BATCH_READINGS, type BatchReadings, hasColour, isCentre } from '../../src/procurement/batch/columns';
import {
  BATCH_AMBIENTS,
  BATCH_UNITS,
  type BatchAmbient,
  type BatchReference,
  type BatchSetup,
} from '../../src/sheets/batch/setup';
import type { RunSetup } from '../../src/sheets/runsetup';
import type { FieldSpec, FieldTable, Texts } from '../form/field';
import { readAll, unfitIn } from '../form/read';
import { count } from '../parse/block';
import { unitList } from './serials';

export type BatchField =
  | 'title'
  | 'units'
  | 'readings'
  | 'ambient'
  | 'reference'
  | 'whiteReference'
  | 'colourReference'
  | 'whiteOutput'
  | 'colourOutput'
  | 'lines'
  | 'whiteStated'
  | 'colourStated';
export type BatchTexts = Texts<BatchField>;

const READINGS_WORDS: Readonly<Record<BatchReadings, string>> = {
  'nine points white': 'Nine points, white only (9 a unit)',
  'nine points in each colour': 'Nine points in white, red, green, blue (36 a unit)',
  'centre white': 'Centre only, white (1 a unit)',
  'centre in each colour': 'Centre only, white, red, green, blue (4 a unit)',
};
const AMBIENT_WORDS: Readonly<Record<BatchAmbient, string>> = {
  once: 'Read once for all units',
  'by row': 'Read for each unit',
  none: 'Not measured',
};

const readingsOf = ({ readings }: BatchTexts): BatchReadings =>
  BATCH_READINGS.find((each) => each === readings) ?? BATCH_READINGS[0];
const isOfCentre = (texts: BatchTexts) => isCentre(readingsOf(texts));
const isColoured = (texts: BatchTexts) => hasColour(readingsOf(texts));
const isColouredCentre = (texts: BatchTexts) => isOfCentre(texts) && isColoured(texts);

const stated = (what: string): FieldSpec<BatchField> => ({
  kind: 'number',
  label: `U of ${what} if stated, %`,
  hint: 'Its uncertainty. Empty: by the budget on the sheet.',
  expect: { what: `stated U of ${what}`, unit: '%', moreThan: 0, max: 100 },
});
const centre = (what: string, hint: string): FieldSpec<BatchField> => ({
  kind: 'number',
  label: `Its ${what} at the centre, lx`,
  hint,
  expect: { what: `${what} at the centre`, unit: 'lx', moreThan: 0, max: ABSURD_LUX },
});
const output = (what: string): FieldSpec<BatchField> => ({
  kind: 'number',
  label: `Its ${what} light output, lm`,
  hint: 'For estimates in lumens. Empty: none.',
  expect: { what: `${what} light output`, unit: 'lm', moreThan: 0, max: LUMENS.max },
});

/** What a batch has beside the set-up of a run. */
export const BATCH: FieldTable<BatchField> = {
  title: { kind: 'text', label: 'Name of the batch', hint: 'As the delivery note calls it.' },
  units: {
    kind: 'lines',
    rows: 5,
    label: 'Serial numbers, one a line',
    hint: ({ units }) =>
      `${count(unitList(units).units.length, 'unit')}. A place may follow behind a tab or a semicolon. Up to ${BATCH_UNITS.max} units.`,
    check: (text) => {
      const { problems } = unitList(text);
      return problems.length > 0
        ? { problem: ['These lines need another look:', ...problems].join('\n') }
        : undefined;
    },
  },
  readings: {
    kind: 'choice',
    label: 'What is read',
    start: BATCH_READINGS[0],
    choices: BATCH_READINGS.map((kind) => [kind, READINGS_WORDS[kind]]),
    hint: (texts) =>
      isOfCentre(texts)
        ? 'A centre reading says nothing of the rest of the image: results are parts of a reference unit that was measured in full.'
        : '',
  },
  ambient: {
    kind: 'choice',
    label: 'Ambient light',
    start: BATCH_AMBIENTS[0]!,
    choices: BATCH_AMBIENTS.map((kind) => [kind, AMBIENT_WORDS[kind]]),
  },
  reference: {
    kind: 'text',
    label: 'Reference unit',
    hint: 'Serial number and run sheet of a unit measured in full.',
    applies: isOfCentre,
    needed: 'Name the reference unit: centre readings say something only beside a unit with a full run.',
  },
  whiteReference: { ...centre('white', 'Net of ambient light.'), applies: isOfCentre },
  colourReference: { ...centre('colour', 'Red + green + blue, net.'), applies: isColouredCentre },
  whiteOutput: { ...output('white'), applies: isOfCentre },
  colourOutput: { ...output('colour'), applies: isColouredCentre },
  lines: {
    kind: 'number',
    label: 'Lines of the table',
    hint: 'Empty: as many as units, at least 20.',
    expect: { what: 'lines of the table', unit: '', isWhole: true, ...BATCH_UNITS },
    check: (text, { units }) => {
      const [lines, listed] = [Number(text), unitList(units).units.length];
      return text.trim() !== '' && lines < listed
        ? { problem: `There are ${listed} units, and ${lines} lines: leave that field empty or raise it.` }
        : undefined;
    },
  },
  whiteStated: stated('white'),
  colourStated: { ...stated('colour'), applies: isColoured },
};

/** Lines that a table has at least, so that units can come later. */
const LINES_LEAST = 20;

/** Texts, and the run form's set-up for what all units share → the set-up of a batch; undefined while a field is unfit. */
export function batchSetup(
  texts: BatchTexts,
  run: RunSetup | undefined,
  reads = readAll(BATCH, texts),
): BatchSetup | undefined {
  if (!run || unfitIn(reads).length > 0) return undefined;
  const { units } = unitList(texts.units);
  const { projector, mode, measuredBy, meter, image, gain, rated, standard, uncertainty } = run;
  const part = (id: 'whiteStated' | 'colourStated') =>
    reads[id].value === undefined ? undefined : reads[id].value / 100;
  return {
    ...{ projector, mode, measuredBy, meter, image, gain, rated, standard, uncertainty },
    title: texts.title.trim(),
    readings: readingsOf(texts),
    ambient: BATCH_AMBIENTS.find((each) => each === texts.ambient) ?? 'once',
    stated: known({ white: part('whiteStated'), colour: part('colourStated') }),
    reference: isOfCentre(texts)
      ? {
          unit: texts.reference.trim(),
          ...known({
            white: reads.whiteReference.value,
            colour: reads.colourReference.value,
            whiteOutput: reads.whiteOutput.value,
            colourOutput: reads.colourOutput.value,
          }),
        }
      : { unit: '' },
    units,
    lines: reads.lines.value ?? Math.max(LINES_LEAST, units.length),
  };
}

function known<K extends string>(values: Readonly<Record<K, number | undefined>>) {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Partial<
    Record<K, number>
  > &
    Partial<BatchReference>;
}
