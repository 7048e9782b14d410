import { CLOSURE_LIMIT, SIDE_DIFFERENCE_LIMIT } from '../../photometry/image';
import { ABSURD_LUX } from '../../photometry/reading';
import type { PlanBuilder } from '../builder';
import type { ImageSetup, RunSetup } from '../runsetup';
import { cellOf, type Field, refusalOf } from '../setup/cell';
import type { SetupPath } from '../setup/path';
import { wordsOf } from './derived';
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
      [area('IF(COUNT(ImageLength,AspectAcross,AspectDown)<3,"",ImageWidth*ImageHeight)'), lux],
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
        `IF(${CLOSES},SQRT(4*DiagonalFalling^2*DiagonalRising^2-(SideRight^2+SideLeft^2-SideTop^2-SideBottom^2)^2)/4*(${metres})^2,"see sides")`,
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
    [
      {
        label: 'Top right down, by the others',
        name: 'DiagonalClosing',
        formula: `=IF(${IS_FIGURE},SQRT(((SideTop^2-SideRight^2+SideBottom^2-SideLeft^2)/2/DiagonalFalling)^2+(${off('SideTop', 'SideRight')}+${off('SideLeft', 'SideBottom')})^2),"")`,
        format: FORMAT.general,
      },
    ],
    [
      {
        label: 'Measured one misses it by',
        name: 'SideMiss',
        formula: `=IF(COUNT(DiagonalClosing)=0,"",ABS(DiagonalRising-DiagonalClosing)/MAX(${SIDES}))`,
        format: FORMAT.percent,
      },
    ],
  ];
}

/*
 * As `quadrilateral` of the photometry room: each diagonal closes two triangles with the sides, and the two over the
 * falling one give the rising one (law of cosines). Six lengths that do not close have no area.
 */
const SIDES = 'SideTop,SideRight,SideBottom,SideLeft';
const DIAGONALS = 'DiagonalFalling,DiagonalRising';
const SQUARES = '(SideRight^2+SideLeft^2-SideTop^2-SideBottom^2)';
const IS_FIGURE =
  `AND(COUNT(${SIDES},${DIAGONALS})=6,` +
  'DiagonalFalling<MIN(SideTop+SideRight,SideBottom+SideLeft),DiagonalFalling>MAX(ABS(SideTop-SideRight),ABS(SideBottom-SideLeft)),' +
  'DiagonalRising<MIN(SideRight+SideBottom,SideTop+SideLeft),DiagonalRising>MAX(ABS(SideRight-SideBottom),ABS(SideTop-SideLeft)),' +
  `2*DiagonalFalling*DiagonalRising>ABS(${SQUARES}))`;
/** How far a corner lies off the falling diagonal, by its sides to the near and the far end of it. */
const off = (near: string, far: string) =>
  `SQRT(MAX(0,${near}^2-((${near}^2-${far}^2+DiagonalFalling^2)/2/DiagonalFalling)^2))`;
const CLOSES = `IF(COUNT(SideMiss)=0,FALSE,SideMiss<=${100 * CLOSURE_LIMIT}%)`;

const MEASURE_AGAIN = 'measure the four sides in order round the image and both diagonals again';
/** What is said beside what follows from four sides, by the name of its cell. */
export const SIDE_CHECKS: Readonly<Record<string, string>> = {
  SideDifference: `=IF(SideDifference>${100 * SIDE_DIFFERENCE_LIMIT}%,"Over 1 %: square the image mechanically; digital correction throws light away.","Sides agree within 1 %.")`,
  DiagonalClosing: 'what four sides and the other diagonal make it, in the unit of lengths (law of cosines)',
  SideMiss: `=IF(COUNT(${SIDES},${DIAGONALS})<6,"A side or a diagonal is missing: no area.",IF(COUNT(SideMiss)=0,"No image has these sides and diagonals: ${MEASURE_AGAIN}.",IF(SideMiss>${100 * CLOSURE_LIMIT}%,"of the longest side. Over ${100 * CLOSURE_LIMIT} % is no reading error: ${MEASURE_AGAIN}.","of the longest side: sides and diagonals fit within ${100 * CLOSURE_LIMIT} %.")))`,
};

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
    const said = SIDE_CHECKS[left.name];
    if (said) b.wide(`F${row}:P${row}`, { role: 'check', ...wordsOf(said) });
    row++;
  }
  return row;
}

/** The largest number a display may show, by the same bound as the functions use. */
export const READING_MAX = ABSURD_LUX;
