import type { PointsName } from './prepare';

/** Ids and labels of one point's components. */
interface PointWords {
  readonly resolutionId: string;
  readonly resolution: string;
  readonly repeatabilityId: string;
  readonly repeatability: string;
  readonly placingId: string;
  readonly placing: string;
}

/** Names of what belongs to a field. */
export interface FieldWords {
  readonly resolutionLine: string;
  readonly repeatabilityLine: string;
  readonly placingLine: string;
  readonly estimate: string;
  readonly spectralId: string;
  readonly spectral: string;
  readonly spectralSharedBy: string;
  readonly points: PointWords[];
}

const known = new Map<PointsName, FieldWords>();

/** The words of a field with at least so many points; made once, because making them costs more than the sums. */
export function wordsOf(name: PointsName, points: number): FieldWords {
  let words = known.get(name);
  if (!words) {
    words = {
      resolutionLine: `Display resolution, ${name} readings`,
      repeatabilityLine: `Repeatability, ${name} readings`,
      placingLine: `Placing of the meter, ${name} readings`,
      estimate: `repeatability:${name}`,
      spectralId: `spectral:${name}`,
      spectral: `Spectral mismatch, ${name}`,
      spectralSharedBy: `every ${name} reading`,
      points: [],
    };
    known.set(name, words);
  }
  for (let i = words.points.length + 1; i <= points; i++) {
    words.points.push({
      resolutionId: `resolution:${name}:${i}`,
      resolution: `Display resolution, ${name}, point ${i}`,
      repeatabilityId: `repeatability:${name}:${i}`,
      repeatability: `Repeatability, ${name}, point ${i}`,
      placingId: `placing:${name}:${i}`,
      placing: `Placing of the meter, ${name}, point ${i}`,
    });
  }
  return words;
}
