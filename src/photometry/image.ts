import { bad, good, invalid, type Outcome } from './outcome';

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
  const match = /^\s*(\d+(?:\.\d+)?)\s*[:x×*/]\s*(\d+(?:\.\d+)?)\s*$/i.exec(text);
  const [across, down] = [Number(match?.[1]), Number(match?.[2])];
  if (across > 0 && down > 0) return good({ across, down });
  const choices = Object.keys(ASPECTS).join(', ');
  return bad(
    invalid(
      'choice',
      'aspect',
      `Aspect must be one of ${choices}, two numbers such as 21:9, or the native pixels such as 1920x1080; it is "${text}".`,
    ),
  );
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
  if (!closes || square <= 0) {
    return bad(
      invalid(
        'impossible-shape',
        'sides',
        `No image has sides ${a}, ${b}, ${c}, ${d} and diagonals ${p}, ${q}: measure the four sides in order round the image and both diagonals again.`,
      ),
    );
  }
  const ratio = (x: number, y: number) => Math.max(x, y) / Math.min(x, y);
  return good({
    area: Math.sqrt(square) / 4,
    worstSideDifference: Math.max(ratio(a, c), ratio(b, d)) - 1,
  });
}

/** Over 1 % between opposite sides: square the image mechanically (common practice). */
export const SIDE_DIFFERENCE_LIMIT = 0.01;
