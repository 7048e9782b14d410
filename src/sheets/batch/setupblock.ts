import { type Bounds, TINY } from '../../photometry/bounds';
import { fieldsOf, hasColour, isCentre } from '../../procurement/batch/columns';
import { stemOf } from '../names/stem';
import { FORMAT } from '../run/layout';
import { lightOf } from '../run/lightof';
import { derivedPairs, pairs, SIDE_CHECKS } from '../run/setup';
import { levelOf } from '../run/uncertainty';
import { defaultRunSetup, type RunSetup } from '../runsetup';
import { cellOf, type Field } from '../setup/cell';
import { TEXT_MAX } from '../setup/fields';
import type { BatchSetup } from './setup';
import type { BlockWriter } from './writer';

/** Fields of a run that a batch has row by row, or not at all. */
const BY_ROW = ['SerialNumber', 'Place', 'MeasuredOn'];
/** Fields that say nothing where only the centre is read: lumens are no result there. */
const WHOLE_IMAGE = ['RatedWhite', 'RatedColour'];

/** The part of a batch that a run's set-up has too. */
export function asRun(setup: BatchSetup): RunSetup {
  return {
    ...defaultRunSetup(),
    projector: setup.projector,
    mode: setup.mode,
    measuredBy: setup.measuredBy,
    meter: setup.meter,
    image: setup.image,
    gain: setup.gain,
    rated: setup.rated,
    standard: setup.standard,
    colour: hasColour(setup.readings) ? 'full fields' : 'none',
    ambient: setup.ambient === 'none' ? 'none' : 'once',
    black: false,
    uncertainty: setup.uncertainty,
  };
}

const number = (
  label: string,
  name: string,
  value: number | undefined,
  bounds: Bounds,
  why: string,
): Field => ({ label, name, value, rule: { type: 'number', ...bounds }, why });
/** Illuminance or light output of a unit with a full run. */
const MEASURED: Bounds = { min: TINY, max: 1_000_000 };

/** What all rows share, from the writer's row on. */
export function putSetupBlock(w: BlockWriter, setup: BatchSetup): void {
  const isWhole = !isCentre(setup.readings);
  w.heading('Set-up for all rows', 'tinted: yours to fill in');
  w.field({
    label: 'Batch',
    name: 'Batch',
    value: setup.title,
    rule: { type: 'length', max: TEXT_MAX },
    why: 'What these units are, as the delivery note calls them.',
    format: FORMAT.text,
  });
  const unused = isWhole ? (hasColour(setup.readings) ? [] : ['RatedColour']) : WHOLE_IMAGE;
  const skipped = [...BY_ROW, ...unused];
  for (const field of pairs(asRun(setup)).flat()) {
    if (!field || skipped.includes(field.name)) continue;
    if (field.name === 'MinimumFraction' && !isWhole)
      w.field({ ...field, label: 'Least part of the reference' });
    else w.field(field);
  }
  if (!isWhole) putReference(w, setup);
  w.heading('What follows', '', '', 'as used', '');
  for (const derived of derivedPairs(asRun(setup), isWhole).flat()) {
    if (!derived) continue;
    w.derived(derived, SIDE_CHECKS[derived.name]);
  }
  putAmbient(w, setup);
  putFactors(w, setup);
  putLimits(w, setup);
}

/** The unit with a full run that centre readings are held against. */
function putReference(w: BlockWriter, { readings, reference }: BatchSetup): void {
  const lines: readonly [string, string, number | undefined, string][] = [
    [
      'Reference, white at the centre, lx',
      'WhiteReference',
      reference.white,
      'Net illuminance at the centre, from its run sheet.',
    ],
    [
      'Reference, colour at the centre, lx',
      'ColourReference',
      reference.colour,
      'Red + green + blue at the centre, net, from its run sheet.',
    ],
    [
      'Reference, white light output, lm',
      'WhiteReferenceOutput',
      reference.whiteOutput,
      'From its full run. With it the table estimates lumens; leave empty for relative figures only.',
    ],
    [
      'Reference, colour light output, lm',
      'ColourReferenceOutput',
      reference.colourOutput,
      'From its full run. With it the table estimates lumens; leave empty for relative figures only.',
    ],
  ];
  w.field({
    label: 'Reference unit',
    name: 'ReferenceUnit',
    value: reference.unit,
    rule: { type: 'length', max: TEXT_MAX },
    why: 'The unit with a full run that the figures are relative to: serial number, run sheet.',
    format: FORMAT.text,
  });
  const first = w.row;
  for (const [label, name, value, why] of lines) {
    const isUsed = hasColour(readings) || !name.startsWith('Colour');
    if (isUsed) w.field(number(label, name, value, MEASURED, why));
    else {
      // The function takes the four cells as they stand; those of colour stay empty here.
      w.label(label);
      w.b.wide(w.span(1, 2), { role: 'derived' }).name(name, w.at(1), label);
      w.b.wide(w.span(3, 6), { role: 'check', value: 'Not used: only white is read.' });
      w.row++;
    }
  }
  w.b.name(
    'ReferenceTerms',
    `${w.at(1, first)}:${w.at(1, w.row - 1)}`,
    'What is known of the reference unit',
  );
}

function putAmbient(w: BlockWriter, { ambient }: BatchSetup): void {
  // Row by row it stands in the table, under the same name.
  if (ambient === 'by row') return;
  const formula =
    ambient === 'none'
      ? '=0'
      : '=IF(COUNT(AmbientReadings)*COUNTIF(AmbientRange,">0")=0,"",AmbientReadings*AmbientRange*LuxPerUnit*CalibrationFactor)';
  w.derived(
    { label: 'Ambient illuminance, lx', name: 'AmbientLux', formula, format: FORMAT.lux },
    ambient === 'none'
      ? 'Not measured: taken as 0 lx.'
      : 'Numbers on the display and range factor stand above the table.',
  );
}

/** Number on the display at range factor 1 → lux, field by field. */
function putFactors(w: BlockWriter, { readings }: BatchSetup): void {
  const first = w.row;
  for (const field of fieldsOf(readings)) {
    const stem = stemOf(field);
    w.derived(
      {
        label: `Lux per step of display, ${field}`,
        name: `${stem}Factor`,
        formula: `=LuxPerUnit*${stem}Correction`,
        format: FORMAT.general,
      },
      'unit × calibration × spectral correction',
    );
  }
  w.b.name(
    'DisplayFactors',
    `${w.at(3, first)}:${w.at(3, w.row - 1)}`,
    'Lux per unit of the display, field by field',
  );
  const lights = w.row;
  for (const field of fieldsOf(readings)) {
    const stem = stemOf(field);
    w.derived(
      {
        label: `Correction of light alone, ${field}`,
        name: `${stem}Light`,
        formula: `=${isCentre(readings) ? `${stem}Spectral` : lightOf(stem)}`,
        format: FORMAT.general,
      },
      'spectral correction × sensor’s place: not in the ambient reading, so multiplied with it',
    );
  }
  w.b.name(
    'LightFactors',
    `${w.at(3, lights)}:${w.at(3, w.row - 1)}`,
    'Corrections of the projector’s light alone, field by field',
  );
  const count = fieldsOf(readings).length;
  const area = isCentre(readings) ? '' : '*COUNTIF(ImageArea,">0")';
  w.derived(
    {
      label: 'Set-up complete',
      name: 'SetupReady',
      formula: `=IF((COUNTIF(DisplayFactors,">0")=${count})${area}=0,"",1)`,
      format: FORMAT.general,
    },
    '=IF(COUNT(SetupReady)=0,"image or meter: a number is missing or 0, or sides and diagonals do not fit","every row can be computed")',
  );
}

/** What units are judged by. */
function putLimits(w: BlockWriter, { readings }: BatchSetup): void {
  const first = w.row;
  for (const id of hasColour(readings) ? (['White', 'Colour'] as const) : (['White'] as const)) {
    const formula = isCentre(readings)
      ? '=IF(COUNT(MinimumFraction)=0,"",MinimumFraction)'
      : `=IF(COUNT(Rated${id},MinimumFraction)<2,"",Rated${id}*MinimumFraction)`;
    w.derived(
      {
        label: `Limit, ${id.toLowerCase()}${isCentre(readings) ? '' : ', lm'}`,
        name: `${id}Limit`,
        formula,
        format: isCentre(readings) ? FORMAT.percent : FORMAT.lumens,
      },
      isCentre(readings)
        ? 'least part of the reference unit; says nothing of lumens'
        : `=IF(COUNT(${id}Limit)=0,"no rated value: not judged","rated value × least part")`,
    );
  }
  w.b.name('Limits', `${w.at(3, first)}:${w.at(3, w.row - 1)}`, 'Limits of white, and of colour below it');
}

/** Decision rule and level of confidence: fixed before the readings. */
export function putRule(w: BlockWriter, setup: BatchSetup): void {
  w.field(cellOf('uncertainty.rule', asRun(setup)));
  w.field(levelOf(setup));
}

/** What is known of the meter and of where it stands, beside half-widths. */
export function putStated(w: BlockWriter, setup: BatchSetup): void {
  const run = asRun(setup);
  for (const path of STATED) w.field(cellOf(path, run));
}
const STATED = [
  'uncertainty.meterClass',
  'uncertainty.statement',
  'uncertainty.light',
  'uncertainty.throwDistance',
  'uncertainty.sensorHeight',
  'uncertainty.meterCheck',
] as const;
