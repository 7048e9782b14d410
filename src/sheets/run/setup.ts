import { SIGNAL_STANDARDS } from '../../photometry/colour';
import { KNOWN_LENGTHS } from '../../photometry/image';
import { ABSURD_LUX } from '../../photometry/reading';
import { ILLUMINANCE_UNITS, LENGTH_UNITS } from '../../photometry/units';
import type { ValidationRule } from '../book';
import type { PlanBuilder } from '../builder';
import { dayNumber } from '../days';
import type { RunSetup } from '../runsetup';
import { FORMAT } from './layout';

/** One line of a set-up: a label, an input with a name, its rule and why the rule is there. */
export interface Field {
  readonly label: string;
  readonly name: string;
  readonly value: string | number | undefined;
  readonly rule: ValidationRule;
  readonly why: string;
  readonly format?: string;
}

const text = (label: string, name: string, value: string, why: string): Field => ({
  label,
  name,
  value: value || undefined,
  rule: { type: 'length', max: 120 },
  why,
  format: FORMAT.text,
});
const positive = (
  label: string,
  name: string,
  value: number | undefined,
  why: string,
  max: number,
): Field => ({
  label,
  name,
  value,
  // Excel's "between" is closed; the smallest number a tape or a factor can sensibly have stands for "above 0".
  rule: { type: 'number', min: 0.000001, max },
  why,
});
const choice = (
  label: string,
  name: string,
  value: string,
  choices: readonly string[],
  why: string,
): Field => ({
  label,
  name,
  value,
  rule: { type: 'list', choices },
  why,
});
const date = (label: string, name: string, iso: string, why: string): Field => ({
  label,
  name,
  value: iso ? dayNumber(iso) : undefined,
  rule: { type: 'date', min: '2000-01-01' },
  why,
  format: FORMAT.date,
});

/** Writes the set-up block from `row` on; returns the first row below it. */
export function putSetup(b: PlanBuilder, row: number, setup: RunSetup): number {
  b.wide(`A${row}:L${row}`, { role: 'heading', value: 'Set-up (tinted cells are yours to fill in)' });
  let r = row + 1;
  for (const [left, right] of pairs(setup)) {
    if (left) putField(b, r, 'A', 'B', 'D', left);
    if (right) putField(b, r, 'F', 'J', 'L', right);
    r++;
  }
  return putDerived(b, r, setup);
}

function putField(
  b: PlanBuilder,
  row: number,
  labelColumn: string,
  first: string,
  last: string,
  field: Field,
): void {
  const at = `${first}${row}`;
  const role = field.rule.type === 'list' ? 'choice' : 'input';
  if (labelColumn === 'A') b.put(`A${row}`, { role: 'label', value: field.label });
  else b.wide(`F${row}:H${row}`, { role: 'label', value: field.label });
  b.wide(`${at}:${last}${row}`, {
    role,
    ...(field.value === undefined ? {} : { value: field.value }),
    ...(field.format ? { format: field.format } : {}),
  });
  b.name(field.name, at, field.label);
  const title = field.label.slice(0, 32);
  b.validate({
    range: at,
    rule: field.rule,
    prompt: { title, message: field.why },
    refusal: { title, message: refusalOf(field), style: 'stop' },
  });
}

/** What is said to an entry that breaks a field's rule. */
export function refusalOf({ label, rule }: Field): string {
  switch (rule.type) {
    case 'list':
      return `${label}: choose one of ${rule.choices.join(', ')}.`;
    case 'number':
      return `${label}: a number above 0, at most ${rule.max}.`;
    case 'date':
      return `${label}: a date from ${rule.min} on.`;
    case 'length':
      return `${label}: at most ${rule.max} characters.`;
    default:
      return `${label}: not a possible entry.`;
  }
}

/** The fields of the set-up, two beside each other. */
export function pairs(setup: RunSetup): [Field?, Field?][] {
  const { meter, rated } = setup;
  const spectral = (colour: 'white' | 'red' | 'green' | 'blue') =>
    positive(
      `Spectral correction, ${colour}`,
      `${colour[0]!.toUpperCase()}${colour.slice(1)}Spectral`,
      meter.corrections[colour],
      'Factor for this colour from the meter’s certificate; 1 if unknown. Even a good meter errs by several per cent in red and blue.',
      10,
    );
  return [
    [
      text(
        'Projector',
        'Projector',
        setup.projector,
        'What was measured, as the offer or the delivery note calls it.',
      ),
      text('Place', 'Place', setup.place, 'Where it was measured.'),
    ],
    [
      text('Serial number', 'SerialNumber', setup.serial, 'From the type plate. It is kept as text.'),
      text('Measured by', 'MeasuredBy', setup.measuredBy, 'Who held the meter.'),
    ],
    [
      text(
        'Picture mode',
        'PictureMode',
        setup.mode,
        'Picture mode and light-source setting, as the projector’s menu calls them.',
      ),
      date('Date', 'MeasuredOn', setup.date, 'The day of the measurement.'),
    ],
    [
      text('Meter', 'Meter', meter.name, 'Which illuminance meter, with its inventory or serial number.'),
      date(
        'Meter calibrated on',
        'CalibratedOn',
        meter.calibratedOn,
        'Date on the calibration certificate. Older than a year: the sheet says so.',
      ),
    ],
    [
      choice(
        'Unit on the display',
        'MeterUnit',
        meter.unit,
        ILLUMINANCE_UNITS,
        'lx (lux) or fc (footcandle): what the display shows. All results are in lux and lumens.',
      ),
      positive(
        'Display step at × 1',
        'MeterDigit',
        meter.digit,
        'The step of the display’s last digit in the lowest range, e.g. 0.1 or 1.',
        1000,
      ),
    ],
    [
      positive(
        'Calibration factor',
        'CalibrationFactor',
        meter.calibration,
        'Factor from the certificate by which every reading is multiplied; 1 if none is stated.',
        10,
      ),
      spectral('white'),
    ],
    ...(setup.colour === 'none'
      ? []
      : ([
          [spectral('red'), spectral('green')],
          [
            spectral('blue'),
            choice(
              'Signal standard',
              'SignalStandard',
              setup.standard,
              SIGNAL_STANDARDS,
              'The standard whose white the colour balance is compared with.',
            ),
          ],
        ] as [Field, Field][])),
    ...imagePairs(setup),
    [
      positive(
        'Screen gain',
        'ScreenGain',
        setup.gain,
        'Gain of the screen in the direction of the audience; 1 for matt white.',
        20,
      ),
      {
        ...positive(
          'Least part of rated value',
          'MinimumFraction',
          rated.minimumFraction,
          'Commonly used lower limit: 80 %. Check the edition of the standard your contract names.',
          2,
        ),
        format: '0 %',
      },
    ],
    [
      positive(
        'Rated light output, lm',
        'RatedWhite',
        rated.white,
        'What the maker or bidder states for white. Leave empty if none is stated.',
        1e6,
      ),
      positive(
        'Rated colour output, lm',
        'RatedColour',
        rated.colour,
        'What the maker or bidder states for colour. Leave empty if none is stated: that is a question to ask.',
        1e6,
      ),
    ],
  ];
}

function imagePairs({ image }: RunSetup): [Field?, Field?][] {
  const unit = choice('Unit of lengths', 'LengthUnit', image.unit, LENGTH_UNITS, 'The unit on the tape.');
  const length = (
    label: string,
    name: string,
    value: number,
    why = 'Edge to edge of the lit image, with a tape, in the unit given.',
  ) => positive(label, name, value, why, 100_000);
  if (image.shape === 'rectangle') {
    return [
      [
        choice(
          'Known length',
          'KnownLength',
          image.known,
          KNOWN_LENGTHS,
          'Which length was measured; the others follow from the aspect ratio.',
        ),
        length('Length', 'ImageLength', image.length),
      ],
      [
        unit,
        length(
          'Aspect ratio, across',
          'AspectAcross',
          image.across,
          'First number of the aspect ratio, e.g. 16 of 16:9; a measured width serves as well.',
        ),
      ],
      [
        undefined,
        length(
          'Aspect ratio, down',
          'AspectDown',
          image.down,
          'Second number of the aspect ratio, e.g. 9 of 16:9; a measured height serves as well.',
        ),
      ],
    ];
  }
  return [
    [length('Top side', 'SideTop', image.top), length('Bottom side', 'SideBottom', image.bottom)],
    [length('Left side', 'SideLeft', image.left), length('Right side', 'SideRight', image.right)],
    [
      length('Diagonal, top left down', 'DiagonalFalling', image.falling),
      length('Diagonal, top right down', 'DiagonalRising', image.rising),
    ],
    [unit, undefined],
  ];
}

/** A cell that follows from the set-up. */
export interface Derived {
  readonly label: string;
  readonly name: string;
  readonly formula: string;
  readonly format: string;
}

/** What follows from the set-up, two beside each other: corrections, image size and area, lux per unit of the display. */
export function derivedPairs({ image, colour }: Pick<RunSetup, 'image' | 'colour'>): [Derived, Derived?][] {
  // Exact metres per unit (NIST SP 811, appendix B), spelled out so that any program can follow.
  const metres =
    'IF(LengthUnit="m",1,IF(LengthUnit="cm",0.01,IF(LengthUnit="mm",0.001,IF(LengthUnit="ft",0.3048,0.0254))))';
  const correction = (stem: string): Derived => ({
    label: `Correction, ${stem.toLowerCase()}`,
    name: `${stem}Correction`,
    formula: `=CalibrationFactor*${stem}Spectral`,
    format: FORMAT.general,
  });
  const size = (label: string, name: string, formula: string): Derived => ({
    label,
    name,
    formula: `=${formula}`,
    format: FORMAT.metres,
  });
  const area = (formula: string): Derived => ({
    label: 'Image area',
    name: 'ImageArea',
    formula: `=${formula}`,
    format: FORMAT.area,
  });
  const lux: Derived = {
    label: 'Lux per unit of display',
    name: 'LuxPerUnit',
    formula: '=IF(MeterUnit="fc",1/0.3048^2,1)',
    format: FORMAT.general,
  };
  const corrections: [Derived, Derived?][] =
    colour === 'none'
      ? [[correction('White')]]
      : [
          [correction('White'), correction('Red')],
          [correction('Green'), correction('Blue')],
        ];
  if (image.shape === 'rectangle') {
    const scale = `ImageLength*${metres}/IF(KnownLength="width",AspectAcross,IF(KnownLength="height",AspectDown,SQRT(AspectAcross^2+AspectDown^2)))`;
    return [
      ...corrections,
      [
        size('Image width', 'ImageWidth', `AspectAcross*${scale}`),
        size('Image height', 'ImageHeight', `AspectDown*${scale}`),
      ],
      [area('ImageWidth*ImageHeight'), lux],
    ];
  }
  return [
    ...corrections,
    [
      size('Image width, mean', 'ImageWidth', `(SideTop+SideBottom)/2*${metres}`),
      size('Image height, mean', 'ImageHeight', `(SideLeft+SideRight)/2*${metres}`),
    ],
    [
      area(
        `SQRT(4*DiagonalFalling^2*DiagonalRising^2-(SideRight^2+SideLeft^2-SideTop^2-SideBottom^2)^2)/4*(${metres})^2`,
      ),
      lux,
    ],
    [
      {
        label: 'Worst difference of sides',
        name: 'SideDifference',
        formula: '=MAX(SideTop/SideBottom,SideBottom/SideTop,SideLeft/SideRight,SideRight/SideLeft)-1',
        format: FORMAT.percent,
      },
    ],
  ];
}

/** What is said of sides that differ. */
export const SIDES_CHECK =
  '=IF(SideDifference>1%,"Over 1 %: square the image mechanically; digital correction throws light away.","Sides agree within 1 %.")';

function putDerived(b: PlanBuilder, start: number, setup: RunSetup): number {
  let row = start;
  for (const [left, right] of derivedPairs(setup)) {
    b.put(`A${row}`, { role: 'label', value: left.label });
    b.put(`B${row}`, { role: 'derived', formula: left.formula, format: left.format });
    b.name(left.name, `B${row}`, left.label);
    if (right) {
      b.wide(`F${row}:H${row}`, { role: 'label', value: right.label });
      b.put(`J${row}`, { role: 'derived', formula: right.formula, format: right.format });
      b.name(right.name, `J${row}`, right.label);
    }
    if (left.name === 'SideDifference') b.wide(`F${row}:L${row}`, { role: 'check', formula: SIDES_CHECK });
    row++;
  }
  return row;
}

/** The largest number a display may show, by the same bound as the functions use. */
export const READING_MAX = ABSURD_LUX;
