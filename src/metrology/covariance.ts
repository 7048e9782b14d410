import { mean } from '../photometry/reading';
import { meanUncertainty } from './sample';

/**
 * Covariance of two means of n pairs read together: Σ(xᵢ − x̄)(yᵢ − ȳ) ÷ (n(n − 1)) (GUM eq. 17).
 * The caller sees to equal lengths of at least two.
 */
export function covarianceOfMeans(x: readonly number[], y: readonly number[]): number {
  const n = x.length;
  const [mx, my] = [mean(x), mean(y)];
  return x.reduce((sum, value, i) => sum + (value - mx) * (y[i]! - my), 0) / (n * (n - 1));
}

/** Correlation coefficient of two means read together, which is that of the readings (GUM eq. 14). */
export function correlation(x: readonly number[], y: readonly number[]): number {
  return covarianceOfMeans(x, y) / (meanUncertainty(x) * meanUncertainty(y));
}

/** Covariance matrix of the means of several quantities read together, one row of readings a quantity. */
export function covarianceMatrix(readings: readonly (readonly number[])[]): number[][] {
  return readings.map((x) => readings.map((y) => covarianceOfMeans(x, y)));
}

/**
 * Covariance matrix of outputs from that of correlated inputs: C V Cᵀ, `sensitivities` holding one row an
 * output (GUM eq. 13 and H.9). Standard uncertainties are the roots of its diagonal.
 */
export function propagateCovariance(
  sensitivities: readonly (readonly number[])[],
  inputs: readonly (readonly number[])[],
): number[][] {
  return sensitivities.map((row) =>
    sensitivities.map((other) =>
      row.reduce((sum, a, i) => sum + other.reduce((inner, b, j) => inner + a * b * inputs[i]![j]!, 0), 0),
    ),
  );
}
