import { loneOnes } from './overrange';
import type { GridShape } from './reading';
import { placeOf } from './reading';

/** Something to look at again. A finding never changes a reading and never stops a result. */
export interface Finding {
  readonly index: number;
  readonly kind: 'lone-one' | 'outlier' | 'few-digits' | 'mixed-ranges';
  readonly message: string;
}

/** What is said of a grid that is complete and unremarkable. */
export const NOTHING = 'nothing to remark';

/** More than this many times the median of its grid, or less than one part in it, is questioned (common practice). */
export const OUTLIER_FACTOR = 3;

/** Fewer display steps than this are fewer than three significant digits. */
const THREE_DIGITS = 100;

export interface GridToInspect {
  /** Display numbers, row by row; undefined where missing. */
  readonly display: readonly (number | undefined)[];
  /** Range factors, one a reading. */
  readonly ranges: readonly number[];
  /** The step of the display's last digit. */
  readonly digit: number;
  readonly shape: GridShape;
  readonly label: string;
}

/** Lone ones, implausible neighbours, coarse readings and mixed ranges of one grid. */
export function inspect({ display, ranges, digit, shape, label }: GridToInspect): Finding[] {
  const findings: Finding[] = [];
  const present = display.flatMap((number, i) =>
    number === undefined ? [] : [{ i, number, lux: number * ranges[i]! }],
  );
  const lone = loneOnes(display);
  const isLone = (i: number) => lone.at.includes(i);
  const middle = median(present.filter(({ i }) => !isLone(i)).map(({ lux }) => lux));
  for (const { i, number, lux } of present) {
    const where = placeOf(label, shape, i);
    if (isLone(i)) {
      findings.push({
        index: i,
        kind: 'lone-one',
        message: `The ${where} is 1. ${aboutLoneOne(lone.among)}`,
      });
      continue;
    }
    if (present.length >= 3 && (lux > OUTLIER_FACTOR * middle || lux < middle / OUTLIER_FACTOR)) {
      findings.push({
        index: i,
        kind: 'outlier',
        message: `The ${where} is ${number} × ${ranges[i]}; the grid's median is ${Number(middle.toPrecision(4))}. Is the range factor right?`,
      });
    }
    if (number < THREE_DIGITS * digit) {
      findings.push({
        index: i,
        kind: 'few-digits',
        message: `The ${where} has fewer than three significant digits (${number}): step down a range if the meter allows.`,
      });
    }
  }
  const used = new Set(present.map(({ i }) => ranges[i]));
  if (used.size > 1) {
    findings.push({
      index: present[0]!.i,
      kind: 'mixed-ranges',
      message: `The ${label} readings come from different ranges (× ${[...used].join(', × ')}): range steps differ by a few per cent on many meters.`,
    });
  }
  return findings;
}

/** What a lone 1 among larger numbers may mean, in words. */
export function aboutLoneOne(among: number): string {
  return `The others are about ${Number(among.toPrecision(2))}, and on many meters a lone 1 means over range: then type over, choose a higher range and read again.`;
}

/** Middle of sorted values; of an even number the mean of the two in the middle. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
