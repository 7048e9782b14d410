import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { calculateBook } from '../../src/audit/formula/calculate';
import { quadrilateral } from '../../src/photometry/image';
import { LENGTH_UNITS, METRES } from '../../src/photometry/units';
import { batchPlan } from '../../src/sheets/batch';
import type { Book } from '../../src/sheets/book';
import type { Plan } from '../../src/sheets/plan';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup, type ImageSetup, type RunSetup } from '../../src/sheets/runsetup';
import { readXlsx } from '../../src/xlsx/read';
import { writeXlsx } from '../../src/xlsx/write';
import { recalculate } from '../tools/libreoffice';
import { batchSetup, typed } from './batchcases';
import { rangeNamed } from './named';
import { random } from './randomrun';

/*
 * An image of four sides and two diagonals, drawn as four corners: its lengths are distances of points, and its area is
 * the shoelace formula's (handbooks of geometry), which knows nothing of diagonals. A slip in one length is a length
 * that no corners have.
 */
type FourSided = Extract<ImageSetup, { shape: 'four sides' }>;
type Point = readonly [number, number];
interface Drawn {
  readonly image: FourSided;
  /** m², of the corners; undefined where a length was mistyped. */
  readonly area?: number;
}

const distance = ([x1, y1]: Point, [x2, y2]: Point) => Math.hypot(x1 - x2, y1 - y2);

function drawn(corners: readonly [Point, Point, Point, Point], unit: FourSided['unit']): Required<Drawn> {
  const [tl, tr, br, bl] = corners;
  const doubled = corners.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = corners[(i + 1) % 4]!;
    return sum + x * nextY - nextX * y;
  }, 0);
  const of = (a: Point, b: Point) => distance(a, b) / METRES[unit];
  return {
    image: {
      shape: 'four sides',
      unit,
      top: of(tl, tr),
      right: of(tr, br),
      bottom: of(br, bl),
      left: of(bl, tl),
      falling: of(tl, br),
      rising: of(tr, bl),
    },
    area: Math.abs(doubled) / 2,
  };
}

/** 2 m × 1.25 m with every corner off by up to 15 cm. */
function anyImage(seed: number): Required<Drawn> {
  const draw = random(seed);
  const near = (x: number, y: number): Point => [x + 0.3 * (draw() - 0.5), y + 0.3 * (draw() - 0.5)];
  return drawn([near(0, 0), near(2, 0), near(2, 1.25), near(0, 1.25)], LENGTH_UNITS[seed % 5]!);
}

const RECTANGLE: FourSided = {
  shape: 'four sides',
  unit: 'm',
  top: 2,
  right: 1.25,
  bottom: 2,
  left: 1.25,
  falling: 2.358,
  rising: 2.358,
};
const SLIPS: readonly Drawn[] = [
  // √(2² + 1.25²) = 2.3585 m: one diagonal read as 1.80 m, as 2.26 m, one side in centimetres.
  { image: { ...RECTANGLE, rising: 1.8 } },
  { image: { ...RECTANGLE, rising: 2.26 } },
  { image: { ...RECTANGLE, left: 125 } },
  // Opposite sides beside each other.
  { image: { ...RECTANGLE, right: 2, bottom: 1.25 } },
  // A diagonal longer than the two sides it closes.
  { image: { ...RECTANGLE, falling: 3.3 } },
];
/** One length 2 % longer than it is: sides and diagonals miss each other by more than 1 %, or by less; `quadrilateral` knows. */
const STRETCHED: readonly Drawn[] = [51, 52, 53, 54].map((seed, i) => {
  const { image } = anyImage(seed);
  const name = (['rising', 'top', 'left', 'falling'] as const)[i]!;
  return { image: { ...image, [name]: image[name] * (i % 2 === 0 ? 1.02 : 1.002) } };
});
const IMAGES: readonly Drawn[] = [
  ...Array.from({ length: 10 }, (_, i) => anyImage(i + 1)),
  { image: RECTANGLE },
  ...SLIPS,
  ...STRETCHED,
];

const base = defaultRunSetup();
const setupOf = (image: FourSided): RunSetup => ({
  ...base,
  colour: 'none',
  ambient: 'none',
  black: false,
  image,
});
const run = ({ image }: Drawn, i: number) =>
  typed(runPlan(setupOf(image), `sides${i}`), {
    WhiteReadings: Array.from({ length: 3 }, () => [1000, 1000, 1000]),
    LastReading: [[1000]],
  });
const batch = ({ image }: Drawn, i: number) =>
  typed(batchPlan(batchSetup({ image, readings: 'nine points white', ambient: 'none' }), `sides${i}`), {
    Readings: [Array.from({ length: 9 }, () => 100)],
  });

const inMetres = ({ unit, ...image }: FourSided) => {
  const { top, right, bottom, left, falling, rising } = image;
  const metres = Object.entries({ top, right, bottom, left, falling, rising }).map(
    ([name, length]) => [name, length * METRES[unit]] as const,
  );
  return Object.fromEntries(metres) as Record<
    'top' | 'right' | 'bottom' | 'left' | 'falling' | 'rising',
    number
  >;
};

/** What of a sheet the image decides, by the first cell of each name. */
const read = (book: Book, plan: Plan, name: string) =>
  book.sheets[0]!.cells[rangeNamed(plan, name).split(':')[0]!]?.value;

it('LibreOffice finds the area that corners have, and none where the function refuses the lengths', async () => {
  const plans = IMAGES.flatMap((image, i) => [run(image, i), batch(image, i)]);
  const files = await Promise.all(plans.map((plan) => writeXlsx(bookOf([plan]), { cachedValues: false })));
  const books = await recalculate(files, 240_000);
  let refused = 0;
  for (const [i, { image, area }] of IMAGES.entries()) {
    const found = quadrilateral(inMetres(image));
    if (!found.ok) refused++;
    if (area !== undefined) expect(found.ok && found.value.area / area).toBeCloseTo(1, 12);
    for (const kind of [0, 1]) {
      const [plan, book] = [plans[2 * i + kind]!, books[2 * i + kind]!];
      const came = read(book, plan, 'ImageArea');
      const white = read(book, plan, kind === 0 ? 'WhiteLightOutputPlain' : 'UnitWhite');
      if (found.ok) {
        expect(Math.abs(Number(came) / found.value.area - 1), `${i}`).toBeLessThan(1e-9);
        expect(Math.abs(Number(white) / (1000 * found.value.area) - 1), `${i}`).toBeLessThan(1e-9);
        expect(read(book, plan, 'SideMiss')).toBeLessThanOrEqual(0.01);
      } else {
        expect(came, `${i}`).toBe('see sides');
        expect(white, `${i}`).toBe(kind === 0 ? 'see set-up' : 'see state');
      }
    }
  }
  // All five slips, and one or both lengths that are 2 % too long.
  expect(refused).toBeGreaterThan(SLIPS.length);
  expect(refused).toBeLessThan(IMAGES.length - 10);
}, 300_000);

it('a missing side leaves no area and no light output', () => {
  const plan = typed(run({ image: RECTANGLE }, 0), { SideLeft: [[null]] });
  const book = calculateBook(bookOf([plan]));
  expect(read(book, plan, 'ImageArea')).toBe('see sides');
  expect(read(book, plan, 'WhiteLightOutputPlain')).toBe('see set-up');
  expect(Object.values(book.sheets[0]!.cells).map(({ value }) => value)).toContain(
    'A side or a diagonal is missing: no area.',
  );
});

it('a missing length of a rectangle leaves no area and no light output', () => {
  const rectangle = { ...setupOf(RECTANGLE), image: base.image };
  const plan = typed(runPlan(rectangle, 'sides1'), {
    WhiteReadings: Array.from({ length: 3 }, () => [1000, 1000, 1000]),
    ImageLength: [[null]],
  });
  const book = calculateBook(bookOf([plan]));
  expect(read(book, plan, 'ImageArea')).toBe('');
  expect(read(book, plan, 'WhiteLightOutputPlain')).toBe('see set-up');
});

const errorsOf = async (book: Book) =>
  (await check(book)).findings
    .filter(({ severity, message }) => severity === 'error' && message.startsWith('The image area'))
    .map(({ expected, found }) => ({ expected, found }));
const SAID = {
  expected: 'sides and diagonals that fit within 1 % of the longest side',
  found: 'sides 2, 1.25, 2, 1.25 and diagonals 2.358, 1.8 m',
};

it('a check finds lengths that do not fit, on runs and on batches of nine points', async () => {
  for (const make of [run, batch]) {
    expect(await errorsOf(calculateBook(bookOf([make(SLIPS[0]!, 1)])))).toEqual([SAID]);
    expect(await errorsOf(calculateBook(bookOf([make({ image: RECTANGLE }, 1)])))).toEqual([]);
  }
});

it('a check finds them on a sheet of an earlier layout too, which works out an area all the same', async () => {
  const book = await readXlsx(readFileSync('test/frozen/fourth/run-fullest-tiled.xlsx'));
  const [sheet] = book.sheets;
  const at = sheet!.names.find(({ name }) => name === 'DiagonalRising')!.refersTo.replace(/^.*!|\$/g, '');
  const before = sheet!.cells[at]!;
  expect(await errorsOf(book)).toEqual([]);
  const cells = { ...sheet!.cells, [at]: { ...before, value: Number(before.value) * 0.8 } };
  const altered = calculateBook({ ...book, sheets: [{ ...sheet!, cells }, ...book.sheets.slice(1)] });
  expect(await errorsOf(altered)).toMatchObject([{ expected: SAID.expected }]);
});

it('a facade of 45 m is an image, one of 61 m is asked about (the bounds of form, sheet and functions)', async () => {
  const asked = async (length: number) => {
    const image = { shape: 'rectangle', known: 'width', length, unit: 'm', across: 16, down: 10 } as const;
    const plan = runPlan({ ...setupOf(RECTANGLE), image }, 'sides1');
    const { findings } = await check(calculateBook(bookOf([plan])));
    return findings
      .filter(({ kind }) => kind === 'units')
      .map(({ severity, expected }) => [severity, expected]);
  };
  expect(await asked(45)).toEqual([]);
  expect(await asked(61)).toEqual([['warning', '0.1 to 60 m']]);
});
