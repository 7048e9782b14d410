import {
  AMBIENT_FRACTION,
  AMBIENT_UNMEASURED,
  CLASS_LINEARITY,
  DRIFT,
  WORST_CLASS,
} from '../../metrology/run/defaults';
import { fieldsOf, hasColour, isCentre } from '../../procurement/batch/columns';
import { stemOf } from '../names/stem';
import { agreement } from '../phrases/agree';
import { FORMAT } from '../run/layout';
import { sizeHalf } from '../run/lines/light';
import { DOF_ASSUMED, DOF_FORMAT, everywhere, gain, INFINITE } from '../run/lines/line';
import { OBLIQUE_LINE, SENSOR_LINE } from '../run/sensor';
import { type Known, knowns } from '../run/uncertainty';
import { tFactor } from '../run/verdict';
import type { BatchSetup } from './setup';
import { asRun, putRule, putStated } from './setupblock';
import type { BlockWriter } from './writer';

/** One cause that all rows share; formulas without "=". */
interface Cause {
  readonly label: string;
  /** Half-width or standard uncertainty as a part of the result. */
  readonly half: string;
  readonly divisor: string;
  /** How often it counts. */
  readonly white: string;
  readonly colour: string;
  readonly dof: string;
  readonly words: string;
}

const COUNTS =
  'Counted once for all rows: what bears on every result alike. Counted row by row: the meter’s digits in the range used, ambient light, and spectral mismatch, linearity and placing of red, green and blue by the light each gives. ' +
  'Not counted: black, contrast, uniformity and the ratio; that nine points are not the whole image; what differs between places. White’s mismatch is that of white by itself, not of its primaries. k rests on the shared part, which errs to the safe side.';
const COUNTS_CENTRE =
  'One meter, one place and one image size for the reference unit and for all rows: the meter’s percentage, its spectral mismatch, the sensor’s place, oblique light, what the room sends back and the image’s size cancel. Counted: scatter and placing of both readings, linearity, drift of both, digits and ambient light of both. ' +
  'Not counted: how the rest of the image differs from the centre. Nothing here speaks for lumens; the estimate has no uncertainty.';

const rectangular = (cause: Omit<Cause, 'divisor' | 'dof'>): Cause => ({
  ...cause,
  divisor: 'SQRT(3)',
  dof: INFINITE,
});

/** How often ambient light is taken off: with what corrects the light of each field. */
const LIGHTS = { White: 'WhiteLight', Colour: '(RedLight+GreenLight+BlueLight)' } as const;

/** Sensitivities are those of the run sheet's budgets, as parts of the result. */
function causesOf({ readings, ambient, image }: BatchSetup): Cause[] {
  const other = rectangular({
    label: 'Another cause',
    half: 'OtherHalfUsed',
    white: '1',
    colour: '1',
    words: 'as stated above',
  });
  const both = isCentre(readings) ? 'SQRT(2)*' : '';
  // An ambient light nobody measured bears on white once, on red, green and blue each, as much as their light is corrected.
  const dark = rectangular({
    label: 'Ambient light, not measured',
    half: `IF(ISNUMBER(AmbientHalf),0,${AMBIENT_UNMEASURED})`,
    white: `${both}${LIGHTS.White}`,
    colour: `${both}${LIGHTS.Colour}`,
    words: 'assumed: 1 % of white; 0 where a half-width in lux is entered above',
  });
  const unknown = ambient === 'none' ? [dark] : [];
  if (isCentre(readings)) {
    return [
      {
        label: 'Repeatability, two readings',
        half: 'RepeatPartUsed',
        divisor: '1',
        white: 'SQRT(2)',
        colour: 'SQRT(2)',
        dof: DOF_ASSUMED,
        words: 'of each reading',
      },
      rectangular({
        label: 'Placing of the meter, twice',
        half: 'PlacingHalfUsed',
        white: 'SQRT(2)',
        colour: 'SQRT(2)',
        words: 'the meter is put to the centre by hand, tilt included',
      }),
      rectangular({
        label: 'Linearity',
        half: 'LinearityHalfUsed',
        white: 'SQRT(2)',
        colour: 'SQRT(2)',
        words: 'both units, in whatever range each is read',
      }),
      rectangular({
        label: 'Drift of both units',
        half: String(DRIFT),
        white: 'SQRT(2)',
        colour: 'SQRT(2)',
        words: 'assumed: ± 2 %, the centre was not read again',
      }),
      ...unknown,
      other,
    ];
  }
  return [
    {
      label: 'Meter, ± of reading',
      half: 'MeterOfReadingUsed',
      divisor: gain('1').divisor!,
      white: '1',
      colour: '1',
      dof: INFINITE,
      words: 'one meter for all rows',
    },
    {
      label: 'Repeatability',
      half: 'RepeatPartUsed',
      divisor: '3',
      white: '1',
      colour: '1',
      dof: DOF_ASSUMED,
      words: 'of each reading, mean of nine; no point is read twice',
    },
    rectangular({
      label: 'Placing of the meter',
      half: 'PlacingHalfUsed/3',
      white: '1',
      colour: '0',
      words: 'of each reading, mean of nine; red, green and blue: row by row',
    }),
    rectangular({
      label: 'Linearity, white',
      half: 'LinearityHalfUsed',
      white: '1',
      colour: '0',
      words: 'red, green and blue: row by row',
    }),
    rectangular({
      label: 'Spectral mismatch, white',
      half: 'WhiteMismatchUsed',
      white: '1',
      colour: '0',
      words: 'red, green and blue: row by row',
    }),
    rectangular({
      label: 'Image size',
      half: sizeHalf({ image }),
      white: '1',
      colour: '1',
      words: 'one image size for all rows',
    }),
    rectangular({
      label: 'Image not square',
      half: 'SquareHalfUsed',
      white: '1',
      colour: '1',
      words: 'part of the area',
    }),
    rectangular({
      label: 'Drift',
      half: String(DRIFT),
      white: '1',
      colour: '1',
      words: 'assumed: ± 2 %, the centre was not read again',
    }),
    ...everywhere('1').map(({ label, half }) =>
      rectangular({ label, half, white: '1', colour: '1', words: 'one place for all rows' }),
    ),
    ...unknown,
    other,
  ];
}

/** What does not cancel between two readings at one place. */
const AT_CENTRE = ['MeterDigits', 'AmbientHalf', 'RepeatPart', 'PlacingHalf', 'LinearityHalf', 'OtherHalf'];

/** Half-widths that may be known, as far as a batch needs them. */
function knownsOf(setup: BatchSetup): Known[] {
  const isWhole = !isCentre(setup.readings);
  return (
    knowns(asRun(setup))
      // A batch is of light outputs; the luminance is left to run sheets.
      .filter(({ name }) => (isWhole ? name !== 'GainHalf' : AT_CENTRE.includes(name)))
      .map((known) => {
        if (known.name === 'WhiteMismatch')
          return {
            ...known,
            because: 'assumed: by f1′ and light source, what meters of such f1′ read wrong',
          };
        if (known.name === 'LinearityHalf' && !isWhole)
          return {
            ...known,
            assumed: String(CLASS_LINEARITY[WORST_CLASS]),
            because: 'assumed: the widest step between ranges of any class (DIN 5032-7:1985)',
          };
        if (known.name !== 'AmbientHalf') return known;
        return {
          ...known,
          assumed: setup.ambient === 'none' ? '0' : 'MeterDigitsUsed*MeterDigit*LuxPerUnit',
          because:
            setup.ambient === 'none'
              ? 'not measured: counted below as a part of white'
              : 'assumed: the meter’s digits, and a tenth of the ambient light itself',
        };
      })
  );
}

/** What is uncertain, the budget of what all rows share, and the terms that each row's U is made of. */
export function putBudget(w: BlockWriter, setup: BatchSetup): void {
  const judged = hasColour(setup.readings) ? (['White', 'Colour'] as const) : (['White'] as const);
  w.heading('What is uncertain', 'as known', 'unit', 'as used', 'leave empty what you do not know');
  putRule(w, setup);
  for (const id of judged) {
    w.field({
      label: `Stated U of ${id.toLowerCase()}, relative`,
      name: `${id}StatedU`,
      value: id === 'White' ? setup.stated.white : setup.stated.colour,
      rule: { type: 'number', min: 0.000001, max: 1 },
      why: 'Expanded uncertainty as a part of the result, such as 8 %. Where it stands, the budget below is not used.',
      format: FORMAT.percent,
    });
  }
  if (!isCentre(setup.readings)) putStated(w, setup);
  for (const known of knownsOf(setup)) w.known(known);
  if (!isCentre(setup.readings)) for (const line of [SENSOR_LINE, OBLIQUE_LINE]) w.derived(line, line.words);
  putShared(w, setup, judged);
  putTerms(w, setup, judged);
  w.words('note', isCentre(setup.readings) ? COUNTS_CENTRE : COUNTS, 66);
}

type Judged = readonly ('White' | 'Colour')[];

/** Budget of what all rows share, as parts of the result. */
function putShared(w: BlockWriter, setup: BatchSetup, judged: Judged): void {
  const hasBoth = judged.length > 1;
  w.heading(
    'Budget, shared by all rows',
    '± of result',
    'divisor',
    'u, white',
    hasBoth ? 'u, colour' : '',
    'ν',
    '',
  );
  const first = w.row;
  for (const { label, half, divisor, white, colour, dof, words } of causesOf(setup)) {
    w.label(label);
    const u = (times: string) => `=${w.at(1)}/${w.at(2)}*${times}`;
    w.b.put(w.at(1), { role: 'derived', formula: `=${half}`, format: '0.00 %' });
    w.b.put(w.at(2), { role: 'derived', formula: `=${divisor}`, format: '0.000' });
    w.b.put(w.at(3), { role: 'derived', formula: u(white), format: '0.000 %' });
    w.b.put(
      w.at(4),
      hasBoth ? { role: 'derived', formula: u(colour), format: '0.000 %' } : { role: 'derived' },
    );
    w.b.put(w.at(5), { role: 'derived', value: Number(dof), format: DOF_FORMAT });
    w.b.put(w.at(6), { role: 'check', value: words });
    w.row++;
  }
  const column = (c: number) => `${w.at(c, first)}:${w.at(c, w.row - 1)}`;
  w.b.name('SharedNu', column(5), 'Degrees of freedom of what all rows share');
  judged.forEach((id, i) => {
    w.b.name(
      `${id}SharedParts`,
      column(3 + i),
      `Standard uncertainties of ${id.toLowerCase()}, parts of the result`,
    );
  });
  w.heading('Shared part', 'by LIGHT function', '', 'by plain formula', 'the two', '', '');
  for (const id of judged) {
    const of = id.toLowerCase();
    const parts = `${id}SharedParts`;
    putTwice(
      w,
      `Standard uncertainty, ${of}`,
      `${id}SharedU`,
      '0.000 %',
      `LIGHT.COMBINEDU(${parts})`,
      `SQRT(SUMSQ(${parts}))`,
    );
    putTwice(
      w,
      `Degrees of freedom, ${of}`,
      `${id}Dof`,
      '[>=1000000]"over a million";0.0',
      `LIGHT.EFFECTIVEDOF(${parts},SharedNu)`,
      `SUMSQ(${parts})^2/SUMPRODUCT(${parts}^4/SharedNu)`,
    );
    putTwice(
      w,
      `Coverage factor, ${of}`,
      `${id}K`,
      '0.000',
      `LIGHT.COVERAGEFACTOR(${id}Dof,Level)`,
      tFactor(`INT(${id}DofPlain*1.000000001)`),
    );
  }
}

/** A result by function and by plain formula, with a cell that says whether they agree. */
function putTwice(
  w: BlockWriter,
  label: string,
  name: string,
  format: string,
  custom: string,
  twin: string,
): void {
  const [own, plain] = [w.at(1), w.at(3)];
  w.label(label);
  w.b.put(own, { role: 'called', formula: `=${custom}`, format }).name(name, own, label);
  w.b
    .put(plain, { role: 'twin', formula: `=${twin}`, format })
    .name(`${name}Plain`, plain, `${label} by plain formula`);
  w.b.wide(w.span(4, 5), { role: 'check', formula: `=${agreement(own, plain)}` });
  w.row++;
}

/** The terms of each row's U, in the order in which the function takes them (`SPREAD_LINES`, `OWN_LINES`). */
function putTerms(w: BlockWriter, setup: BatchSetup, judged: Judged): void {
  const { readings, ambient } = setup;
  const primaries = fieldsOf(readings).slice(1);
  const both = isCentre(readings) ? 'SQRT(2)*' : '';
  const factors = (id: 'White' | 'Colour', join: (each: readonly string[]) => string) =>
    id === 'White' ? join(['WhiteFactor']) : join(primaries.map((field) => `${stemOf(field)}Factor`));
  const points = isCentre(readings) ? 1 : 9;
  const digits = (id: 'White' | 'Colour') => {
    const sum = factors(id, (each) => `(${each.join('+')})`);
    const squares = factors(id, (each) => `(${each.map((factor) => `${factor}^2`).join('+')})`);
    return `${both}SQRT((${sum}*MeterDigitsUsed*MeterDigit)^2/3+(MeterDigit/2)^2/3/${points}*${squares})`;
  };
  const lines: readonly [string, string, string, (id: 'White' | 'Colour') => string, string][] = [
    [
      'Stated U, relative',
      'Stated',
      FORMAT.percent,
      (id) => `IF(ISNUMBER(${id}StatedU),${id}StatedU,"")`,
      'empty: by the budget',
    ],
    ['Coverage factor k', 'Cover', '0.000', (id) => `${id}KPlain`, 'from the shared part'],
    ['Shared u, relative', 'Shared', '0.000 %', (id) => `${id}SharedUPlain`, 'from the shared part'],
    ['Digits, u in lx at × 1', 'Digits', '0.0000', digits, 'times the row’s range factor'],
    [
      'Ambient, u in lx',
      'Ambient',
      '0.0000',
      (id) => `${both}${LIGHTS[id]}*AmbientHalfUsed/SQRT(3)`,
      'the half-width above',
    ],
    [
      'Ambient, u as a part of it',
      'AmbientPart',
      '0.000',
      (id) =>
        ambient === 'none'
          ? '0'
          : `IF(ISNUMBER(AmbientHalf),0,${both}${LIGHTS[id]}*${AMBIENT_FRACTION}/SQRT(3))`,
      'of the row’s ambient light',
    ],
  ];
  w.heading('Terms of each row’s U', '', '', 'white', judged.length > 1 ? 'colour' : '', '', '');
  const first = w.row;
  for (const [label, suffix, format, formula, words] of lines) {
    w.label(label);
    judged.forEach((id, i) => {
      w.b.put(w.at(3 + i), { role: 'derived', formula: `=${formula(id)}`, format });
      w.b.name(`${id}${suffix}`, w.at(3 + i), `${label}, ${id.toLowerCase()}`);
    });
    w.b.wide(w.span(5, 6), { role: 'check', value: words });
    w.row++;
  }
  for (const field of primaries) {
    const stem = stemOf(field);
    w.label(`${stem} by itself, relative u`);
    w.b.put(w.at(3), { role: 'derived' });
    // Nine readings, each placed by itself: a ninth of the variance.
    const own = `SQRT((${stem}MismatchUsed^2+LinearityHalfUsed^2+PlacingHalfUsed^2/9)/3)`;
    w.b.put(w.at(4), { role: 'derived', formula: isCentre(readings) ? '=0' : `=${own}`, format: '0.000 %' });
    w.b.name(`${stem}Own`, w.at(4), `What bears on ${field} alone, relative standard uncertainty`);
    w.b.wide(w.span(5, 6), {
      role: 'check',
      value: isCentre(readings)
        ? 'mismatch cancels against the reference'
        : `mismatch, linearity, placing: of the row’s ${field}`,
    });
    w.row++;
  }
  const last = w.at(2 + judged.length, w.row - 1);
  w.b.name('SpreadTerms', `${w.at(3, first)}:${last}`, 'Terms of each row’s U: white, and colour beside it');
}
