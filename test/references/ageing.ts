/**
 * Ageing by Φ(t) = B·e^(−αt), relative to an initial value of 1 (model and hours formula: TM-21 as retold; no
 * worked table of TM-21 could be read). Digits by arithmetic from B and α; the fit of rounded values by scipy 1.17.1.
 */
export const HOURS = [1000, 2000, 3000, 4000, 5000, 6000];

/** B 1.01, α 2·10⁻⁵ per hour. */
export const EXACT_FALL = {
  start: 1.01,
  rate: 2e-5,
  printed: ['0.990001', '0.970397', '0.951182', '0.932348', '0.913886', '0.895790'],
  l70: '18331.264',
  l50: '35154.876',
};

/** B 1, α 10⁻⁵ per hour: hours to 70 %. */
export const SLOW_FALL = { start: 1, rate: 1e-5, l70: '35667.494' };

/** Values rounded as a person would note them, and what least squares of their logarithms gives. */
export const NOTED_FALL = {
  outputs: [0.99, 0.9705, 0.951, 0.9325, 0.9135, 0.896],
  start: '1.00998665',
  rate: '0.0000200014755',
  l70: '18329.25',
  l50: '35151.62',
};
