import { ABSURD_LUX } from '../../photometry/reading';
import type { PlanBuilder } from '../builder';
import type { ImageSetup, RunSetup } from '../runsetup';
import { cellOf, type Field, refusalOf } from '../setup/cell';
import type { SetupPath } from '../setup/path';
import { FORMAT } from './layout';

/** Writes the set-up block from `row` on; returns the first row below it. */
export function putSetup(b: PlanBuilder, row: number, setup: RunSetup): number {
  b.wide(`A${row}:P${row}`, { role: 'heading', value: 'Set-up (tinted cells are yours to fill in)' });
  let r = row + 1;
  for (const [left, right] of pairs(setup)) {
    if (left) putField(b, r, 'A', 'B', 'E', left);
    if (right) putField(b, r, 'F', 'J', 'P', right);
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
  else b.wide(`F${row}:I${row}`, { role: 'label', value: field.label });
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

/** The fields of the set-up, two beside each other. */
export function pairs(setup: RunSetup): [Field?, Field?][] {
  return [...ABOUT, ...(setup.colour === 'none' ? [] : COLOURED), ...IMAGE[setup.image.shape], ...RATED].map(
    ([left, right]) => [left && cellOf(left, setup), right && cellOf(right, setup)],
  );
}

type Pair = readonly [SetupPath?, SetupPath?];
const ABOUT: readonly Pair[] = [
  ['projector', 'place'],
  ['serial', 'measuredBy'],
  ['mode', 'date'],
  ['meter.name', 'meter.calibratedOn'],
  ['meter.certificate', 'meter.dueOn'],
  ['meter.unit', 'meter.digit'],
  ['meter.calibration', 'meter.corrections.white'],
];
const COLOURED: readonly Pair[] = [
  ['meter.corrections.red', 'meter.corrections.green'],
  ['meter.corrections.blue', 'standard'],
];
const IMAGE: Readonly<Record<ImageSetup['shape'], readonly Pair[]>> = {
  rectangle: [
    ['image.known', 'image.length'],
    ['image.unit', 'image.across'],
    [undefined, 'image.down'],
  ],
  'four sides': [
    ['image.top', 'image.bottom'],
    ['image.left', 'image.right'],
    ['image.falling', 'image.rising'],
    ['image.unit', undefined],
  ],
};
const RATED: readonly Pair[] = [
  ['gain', 'rated.minimumFraction'],
  ['rated.white', 'rated.colour'],
];

/** A cell that follows from the set-up. */
export interface Derived {
  readonly label: string;
  readonly name: string;
  readonly formula: string;
  readonly format: string;
}

/** What follows from the set-up, two beside each other: corrections, image size and area, lux per unit of the display. */
export function derivedPairs(
  { image, colour }: Pick<RunSetup, 'image' | 'colour'>,
  hasSensor = false,
): [Derived, Derived?][] {
  // Exact metres per unit (NIST SP 811, appendix B), spelled out so that any program can follow.
  const metres =
    'IF(LengthUnit="m",1,IF(LengthUnit="cm",0.01,IF(LengthUnit="mm",0.001,IF(LengthUnit="ft",0.3048,0.0254))))';
  const correction = (stem: string): Derived => ({
    label: `Correction, ${stem.toLowerCase()}`,
    name: `${stem}Correction`,
    formula: `=CalibrationFactor*${stem}Spectral${hasSensor ? '*SensorFactor' : ''}`,
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
  const sensor: Derived = {
    label: 'Factor for the sensor’s place',
    name: 'SensorFactor',
    // The sensor is nearer to the lens than the screen: light falls off with the square of the distance (geometry).
    formula: '=IF(COUNT(ThrowDistance,SensorHeight)<2,1,(1-SensorHeight/1000/ThrowDistance)^2)',
    format: FORMAT.general,
  };
  const corrections: [Derived, Derived?][] =
    colour === 'none'
      ? [[correction('White'), ...(hasSensor ? [sensor] : [])] as [Derived, Derived?]]
      : [
          ...(hasSensor ? [[sensor] as [Derived, Derived?]] : []),
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

/** The image's size is what people ask for; the rest leads on to results. */
function putName(b: PlanBuilder, { name, label }: Derived, at: string): void {
  if (/^Image/.test(name)) b.name(name, at, label);
  else b.innerName(name, at, label);
}

function putDerived(b: PlanBuilder, start: number, setup: RunSetup): number {
  let row = start;
  for (const [left, right] of derivedPairs(setup, true)) {
    b.put(`A${row}`, { role: 'label', value: left.label });
    b.wide(`B${row}:C${row}`, { role: 'derived', formula: left.formula, format: left.format });
    putName(b, left, `B${row}`);
    if (right) {
      b.wide(`F${row}:I${row}`, { role: 'label', value: right.label });
      b.wide(`J${row}:K${row}`, { role: 'derived', formula: right.formula, format: right.format });
      putName(b, right, `J${row}`);
    }
    if (left.name === 'SideDifference') b.wide(`F${row}:P${row}`, { role: 'check', formula: SIDES_CHECK });
    row++;
  }
  return row;
}

/** The largest number a display may show, by the same bound as the functions use. */
export const READING_MAX = ABSURD_LUX;
