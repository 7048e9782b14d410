import { bad, good, invalid, type Outcome } from '../photometry/outcome';
import { mean } from '../photometry/reading';
import { sampleVariance } from './sample';

/** K observations on each of J days, by their daily means and standard deviations. */
export interface Anova {
  readonly mean: number;
  /** Standard deviation of the daily means about their mean, ν = J − 1. */
  readonly sdOfMeans: number;
  /** Pooled standard deviation within a day, ν = J(K − 1). */
  readonly sdWithin: number;
  readonly dofBetween: number;
  readonly dofWithin: number;
  /** Ratio of the two independent estimates of the within-day variance (GUM eq. H.27). */
  readonly f: number;
  /** Day-to-day standard deviation; 0 where the daily means scatter no more than chance would have it. */
  readonly sdBetween: number;
  /** Standard uncertainty of the mean with the day-to-day effect taken as real: sdOfMeans ÷ √J. */
  readonly u: number;
}

/** One-way analysis of variance, balanced, from daily means and standard deviations (GUM H.5). */
export function anovaOfMeans(
  means: readonly number[],
  sds: readonly number[],
  perDay: number,
): Outcome<Anova> {
  const days = means.length;
  if (days < 2 || sds.length !== days || !Number.isInteger(perDay) || perDay < 2) {
    return bad(
      invalid(
        'shape',
        'groups',
        `Analysis of variance needs two or more groups of the same number (2 or more) of readings; there are ${days} means and ${sds.length} standard deviations of ${perDay}.`,
      ),
    );
  }
  const variances = sds.map((sd) => sd ** 2);
  if (![...means, ...variances].every(Number.isFinite)) {
    return bad(invalid('not-a-number', 'groups', 'Means and standard deviations must be finite numbers.'));
  }
  const ofMeans = sampleVariance(means);
  const within = mean(variances);
  return good({
    mean: mean(means),
    sdOfMeans: Math.sqrt(ofMeans),
    sdWithin: Math.sqrt(within),
    dofBetween: days - 1,
    dofWithin: days * (perDay - 1),
    f: (perDay * ofMeans) / within,
    sdBetween: Math.sqrt(Math.max(0, ofMeans - within / perDay)),
    u: Math.sqrt(ofMeans / days),
  });
}

/** One-way analysis of variance of groups of equal size. */
export function anova(groups: readonly (readonly number[])[]): Outcome<Anova> {
  const size = groups[0]?.length ?? 0;
  if (groups.some((group) => group.length !== size)) {
    return bad(
      invalid('shape', 'groups', `All groups must have the same number of readings; the first has ${size}.`),
    );
  }
  return anovaOfMeans(
    groups.map(mean),
    groups.map((group) => Math.sqrt(sampleVariance(group))),
    size,
  );
}
