import { IMAGE_METRES } from './bounds';
import { bad, good, invalid, type Outcome, type Problem } from './outcome';
import { type LengthUnit, METRES } from './units';

/** Size of a projected image, in metres and square metres. */
export interface ImageSize {
  readonly width: number;
  readonly height: number;
  readonly diagonal: number;
  readonly area: number;
}

export type KnownLength = 'width' | 'height' | 'diagonal';
export const KNOWN_LENGTHS: readonly KnownLength[] = ['width', 'height', 'diagonal'];

export interface Aspect {
  readonly across: number;
  readonly down: number;
}

/** Aspect ratios the trade names; 17:9 stands for 4096 × 2160, which is not exactly 17 ÷ 9. */
export const ASPECTS: Readonly<Record<string, Aspect>> = {
  '16:10': { across: 16, down: 10 },
  '16:9': { across: 16, down: 9 },
  '4:3': { across: 4, down: 3 },
  '17:9': { across: 4096, down: 2160 },
};

/**
 * "16:9", "4:3", "17:9", two numbers such as "21:9" or "2.39:1", or native pixels such as "1920x1080".
 */
export function parseAspect(text: string): Outcome<Aspect> {
  // An own entry only: "toString" is on every object and is no aspect.
  if (Object.hasOwn(ASPECTS, text.trim())) return good(ASPECTS[text.trim()]!);
  const typed = timeOf(text);
  if (typed !== undefined) {
    return bad(
      invalid(
        'choice',
        'aspect',
        `The aspect is the number ${text}: the spreadsheet took ${typed} for a time of day. Type '${typed} with the apostrophe in front, or ${typed.replace(':', 'x')}.`,
      ),
    );
  }
  const match = /^\s*(\d+(?:\.\d+)?)\s*[:x×*/]\s*(\d+(?:\.\d+)?)\s*$/i.exec(text);
  const [across, down] = [Number(match?.[1]), Number(match?.[2])];
  if (across > 0 && down > 0) {
    if (across <= down * WIDEST && down <= across * WIDEST) return good({ across, down });
    return bad(
      invalid(
        'out-of-bounds',
        'aspect',
        `No image is more than ${WIDEST} times as wide as high, or as high as wide; the aspect is "${text}".`,
      ),
    );
  }
  const choices = Object.keys(ASPECTS).join(', ');
  return bad(
    invalid(
      'choice',
      'aspect',
      `Aspect must be one of ${choices}, two numbers such as 21:9, or the native pixels such as 1920x1080; it is "${text}".`,
    ),
  );
}

/** Beyond this, two numbers are no aspect ratio but a slip, such as a missing point. */
const WIDEST = 20;

/** "16:9" typed into a cell becomes the time 16:09, a part of a day; undefined where no such time is meant. */
function timeOf(text: string): string | undefined {
  const minutes = Number(text) * 24 * 60;
  const whole = Math.round(minutes);
  if (!(whole > 0) || Math.abs(minutes - whole) > 1e-6) return undefined;
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  if (rest === 0) return undefined;
  // From a day on, a ratio such as 1.778 may be meant; 32:9 and 32:10 are the only aspects so wide.
  return hours < 24 || rest === 9 || rest === 10 ? `${hours}:${rest}` : undefined;
}

/** One length (m) and the aspect → the whole image. Plain geometry. */
export function imageSize(known: KnownLength, length: number, aspect: Aspect): Outcome<ImageSize> {
  if (!(length > 0 && Number.isFinite(length))) {
    return bad(invalid('out-of-bounds', known, `Image ${known} must be greater than 0; it is ${length}.`));
  }
  const { across, down } = aspect;
  const unit = { width: across, height: down, diagonal: Math.hypot(across, down) }[known];
  const [width, height] = [(length * across) / unit, (length * down) / unit];
  return good({ width, height, diagonal: Math.hypot(width, height), area: width * height });
}

/** Problems of lengths (m) that no projector's image has. */
export function sizeProblems(lengths: Readonly<Record<string, number>>): Problem[] {
  const { min, max } = IMAGE_METRES;
  return Object.entries(lengths).flatMap(([name, length]) =>
    length >= min && length <= max
      ? []
      : [
          invalid(
            'out-of-bounds',
            name,
            `The ${name} must be that of a projector's image, from ${min} m to ${max} m; it is ${Number(length.toPrecision(6))} m. Check the unit.`,
          ),
        ],
  );
}

/** Four sides in order round the image, and its two diagonals; all in metres. */
export interface FourSides {
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly left: number;
  /** Top left to bottom right, and top right to bottom left. */
  readonly falling: number;
  readonly rising: number;
}

/** The same lengths, typed in another unit, in metres. */
export function inMetres(
  { top, right, bottom, left, falling, rising }: FourSides,
  unit: LengthUnit,
): FourSides {
  const m = METRES[unit];
  return {
    top: top * m,
    right: right * m,
    bottom: bottom * m,
    left: left * m,
    falling: falling * m,
    rising: rising * m,
  };
}

export interface QuadrilateralArea {
  /** m² */
  readonly area: number;
  /** The larger ratio of opposite sides, minus 1: 0 for a rectangle. */
  readonly worstSideDifference: number;
}

/**
 * Area of an image that is not square, from its sides and diagonals:
 * ¼·√(4p²q² − (b² + d² − a² − c²)²), Bretschneider's formula (any handbook of geometry).
 */
export function quadrilateral(sides: FourSides): Outcome<QuadrilateralArea> {
  const { top: a, right: b, bottom: c, left: d, falling: p, rising: q } = sides;
  for (const [name, length] of Object.entries(sides)) {
    if (!(length > 0 && Number.isFinite(length))) {
      return bad(
        invalid('out-of-bounds', name, `Side or diagonal "${name}" must be greater than 0; it is ${length}.`),
      );
    }
  }
  // Each diagonal closes two triangles with the sides; outside these bounds no such figure can be drawn.
  const closes =
    p < a + b &&
    p < c + d &&
    q < b + c &&
    q < a + d &&
    p > Math.abs(a - b) &&
    p > Math.abs(c - d) &&
    q > Math.abs(b - c) &&
    q > Math.abs(a - d);
  const square = 4 * p ** 2 * q ** 2 - (b ** 2 + d ** 2 - a ** 2 - c ** 2) ** 2;
  // Lengths brought to metres have digits that nobody typed.
  const shown = (...lengths: number[]) => lengths.map((length) => Number(length.toPrecision(12))).join(', ');
  const again = 'measure the four sides in order round the image and both diagonals again';
  if (!closes || square <= 0) {
    return bad(
      invalid(
        'impossible-shape',
        'sides',
        `No image has sides ${shown(a, b, c, d)} and diagonals ${shown(p, q)}: ${again}.`,
      ),
    );
  }
  const miss = closure(sides);
  if (Math.abs(miss) > CLOSURE_LIMIT * Math.max(a, b, c, d)) {
    return bad(
      invalid(
        'impossible-shape',
        'sides',
        `Four sides ${shown(a, b, c, d)} and a diagonal of ${shown(p)} make another diagonal of ${Number((q - miss).toPrecision(4))}, not of ${shown(q)}: they miss each other by ${Number(Math.abs(1000 * miss).toPrecision(2))} mm (at most ${100 * CLOSURE_LIMIT} % of the longest side is taken for reading errors). Check that the sides stand in order round the image; ${again}.`,
      ),
    );
  }
  const ratio = (x: number, y: number) => Math.max(x, y) / Math.min(x, y);
  return good({
    area: Math.sqrt(square) / 4,
    worstSideDifference: Math.max(ratio(a, c), ratio(b, d)) - 1,
  });
}

/** Six lengths read from a tape close to this part of the longest side (common practice: a tape across an image's soft edges). */
export const CLOSURE_LIMIT = 0.01;

/**
 * By how much the rising diagonal is longer than the four sides and the falling diagonal allow, m. The two triangles
 * over the falling one lie in one plane, so they give the other: two corners on either side of it (law of cosines).
 */
function closure({ top: a, right: b, bottom: c, left: d, falling: p, rising: q }: FourSides): number {
  // Top left at 0, bottom right at p on an axis; the height of a corner off it is 0 at least, whatever the tape read.
  const corner = (near: number, far: number) => {
    const along = (near ** 2 - far ** 2 + p ** 2) / (2 * p);
    return { along, off: Math.sqrt(Math.max(0, near ** 2 - along ** 2)) };
  };
  const [right, left] = [corner(a, b), corner(d, c)];
  return q - Math.hypot(right.along - left.along, right.off + left.off);
}

/** Over 1 % between opposite sides: square the image mechanically (common practice). */
export const SIDE_DIFFERENCE_LIMIT = 0.01;
