/** Set by `npm run test:long`. */
const isLong = Boolean(process.env.LONG);

/** How many random cases a check takes: `usual` in every run of the suite, `all` in the long one. */
export function amount(usual: number, all: number): number {
  return isLong ? all : usual;
}
