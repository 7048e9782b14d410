/** Set by `npm run test:long`. */
export const isLong = Boolean(process.env.LONG);

/** How many random cases a check takes: `usual` in every run of the suite, `all` in the long one. */
export function amount(usual: number, all: number): number {
  return isLong ? all : usual;
}

/** Of cases that are alike, those of every run of the suite; the long one takes the others too. */
export function cases<T>(usual: readonly T[], others: readonly T[]): T[] {
  return isLong ? [...usual, ...others] : [...usual];
}
