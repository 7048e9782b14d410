/* When a model counts as near linear: in the trials, and in what a sheet says of its own linear model. */

/** How far the u of the trials and the propagated one may differ. */
export const NEAR = 0.01;
/** How far the mean of the trials may lie from the value, in u: well above what 10⁵ trials scatter by chance. */
export const SHIFT = 0.05;
/**
 * Two readings are told apart where they differ by more than so many standard uncertainties of their difference.
 * Found by trial: of 160 random runs, none whose extremes stand so clear had a u off by 1 %.
 */
export const CLEAR = 2.5;
/** The same as a bound for the squared difference, in squares of one reading's u. */
export const CLEAR_SQUARED = 2 * CLEAR ** 2;
