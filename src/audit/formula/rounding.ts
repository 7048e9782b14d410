/** Larger lots than a spreadsheet is asked about; the sums below must come to an end. */
const LARGEST = 100_000;

/** A number × 10^digits, without the rest that the product leaves: 1.005 × 100 is 100.5. */
function shifted(x: number, digits: number): number {
  return Number((Math.abs(x) * 10 ** digits).toPrecision(15));
}

/** Half away from zero, as spreadsheets round. */
export function round(x: number, digits: number): number {
  const places = Math.trunc(digits);
  return (Math.sign(x) * Math.round(shifted(x, places))) / 10 ** places;
}

/** Away from zero. */
export function roundUp(x: number, digits: number): number {
  const places = Math.trunc(digits);
  return (Math.sign(x) * Math.ceil(shifted(x, places))) / 10 ** places;
}

/** HYPGEOMDIST: probability of exactly so many marked ones in a sample drawn without putting back. */
export function hypergeometric(found: number, sample: number, marked: number, all: number): number {
  const [x, n, M, N] = [found, sample, marked, all].map(Math.trunc) as [number, number, number, number];
  const isPossible = x >= 0 && x <= Math.min(n, M) && x >= n - N + M && n <= N && M <= N && N > 0;
  if (!isPossible) return Number.NaN;
  return Math.exp(logChoose(M, x) + logChoose(N - M, n - x) - logChoose(N, n));
}

/** HYPGEOM.DIST, the newer name: of exactly so many, or of at most so many. */
export function hypergeometricTo(
  found: number,
  sample: number,
  marked: number,
  all: number,
  cumulative: number,
): number {
  if (cumulative === 0) return hypergeometric(found, sample, marked, all);
  const first = Math.max(0, sample - all + marked);
  if (!(found - first <= LARGEST)) return Number.NaN;
  let sum = 0;
  for (let i = first; i <= found; i++) {
    sum += hypergeometric(i, sample, marked, all);
  }
  return sum;
}

function logChoose(n: number, k: number): number {
  const few = Math.min(k, n - k);
  if (few > LARGEST) return Number.NaN;
  let sum = 0;
  for (let i = 1; i <= few; i++) sum += Math.log((n - few + i) / i);
  return sum;
}
