import { type Bits, BLOCK } from './bits';

/** Random numbers of the shapes that a budget knows, from 32 random bits at a time. */

/** Uniform between −1 and 1, both excluded, in steps of 2⁻³¹. */
export function signed(bits: Bits): number {
  return (bits.next() + 0.5) * 2 ** -31;
}

/** Fills `out` with `count` of them. */
export function fillSigned(bits: Bits, out: Float64Array, count: number): void {
  for (let from = 0; from < count; from += BLOCK) {
    const n = Math.min(BLOCK, count - from);
    const first = bits.reserve(n);
    for (let i = 0; i < n; i++) out[from + i] = (bits.block[first + i]! + 0.5) * 2 ** -31;
  }
}

/** Uniform between 0 and 1, both excluded. */
export function unit(bits: Bits): number {
  return ((bits.next() >>> 0) + 0.5) * 2 ** -32;
}

/** Symmetric triangle between −1 and 1: the mean of two uniform ones (JCGM 101, 6.4.5). */
export function triangular(bits: Bits): number {
  return (signed(bits) + signed(bits)) / 2;
}

/** Arcsine density between −1 and 1: the sine of a uniform angle (JCGM 101, 6.4.6). */
export function uShaped(bits: Bits): number {
  return Math.sin((Math.PI / 2) * signed(bits));
}

/*
 * Ziggurat of 128 layers: G. Marsaglia and W. W. Tsang, J. Stat. Softw. 5 (2000) no. 8; tables, tail and wedge
 * as in J. A. Doornik, "An improved ziggurat method to generate normal random samples" (2005). R is where the
 * tail begins, V the area of a layer. Layer and place in the layer come from different bits of one word.
 */
const LAYERS = 128;
const R = 3.442619855899;
const V = 9.91256303526217e-3;
const edge = new Float64Array(LAYERS + 1);
const inside = new Float64Array(LAYERS);
edge[0] = V / Math.exp(-0.5 * R * R);
edge[1] = R;
for (let i = 2; i < LAYERS; i++) {
  const above = edge[i - 1]!;
  edge[i] = Math.sqrt(-2 * Math.log(V / above + Math.exp(-0.5 * above * above)));
}
for (let i = 0; i < LAYERS; i++) inside[i] = edge[i + 1]! / edge[i]!;

/** Standard normal. */
export function normal(bits: Bits): number {
  return fromWord(bits, bits.next());
}

/** Places in a block whose word fell outside its layer's box, and the words. */
const missed = new Int32Array(BLOCK);
const missedWord = new Int32Array(BLOCK);

/** Fills `out` with `count` standard normals: first all that fall inside a box, then the few that need more words. */
export function fillNormal(bits: Bits, out: Float64Array, count: number): void {
  for (let from = 0; from < count; from += BLOCK) {
    const n = Math.min(BLOCK, count - from);
    const first = bits.reserve(n);
    const { block } = bits;
    let misses = 0;
    for (let i = 0; i < n; i++) {
      const word = block[first + i]!;
      const layer = word & 127;
      const place = ((word >> 7) + 0.5) * 2 ** -24;
      if (Math.abs(place) < inside[layer]!) {
        out[from + i] = place * edge[layer]!;
      } else {
        missed[misses] = from + i;
        missedWord[misses++] = word;
      }
    }
    // Only now: more words may overwrite the block.
    for (let k = 0; k < misses; k++) out[missed[k]!] = fromWord(bits, missedWord[k]!);
  }
}

function fromWord(bits: Bits, word: number): number {
  const layer = word & 127;
  const place = ((word >> 7) + 0.5) * 2 ** -24;
  // Inside the layer's box: 98.8 % of all draws.
  if (Math.abs(place) < inside[layer]!) return place * edge[layer]!;
  return outside(bits, layer, place);
}

function outside(bits: Bits, first: number, start: number): number {
  let layer = first;
  let place = start;
  for (;;) {
    if (Math.abs(place) < inside[layer]!) return place * edge[layer]!;
    if (layer === 0) return place > 0 ? tail(bits) : -tail(bits);
    const x = place * edge[layer]!;
    const low = Math.exp(-0.5 * (edge[layer]! ** 2 - x * x));
    const high = Math.exp(-0.5 * (edge[layer + 1]! ** 2 - x * x));
    if (high + unit(bits) * (low - high) < 1) return x;
    const word = bits.next();
    layer = word & 127;
    place = ((word >> 7) + 0.5) * 2 ** -24;
  }
}

function tail(bits: Bits): number {
  for (;;) {
    const x = Math.log(unit(bits)) / R;
    const y = Math.log(unit(bits));
    if (-2 * y >= x * x) return R - x;
  }
}

/**
 * χ² with `dof` degrees of freedom (any real number above 0): twice a gamma variate of half the shape
 * (G. Marsaglia and W. W. Tsang, ACM Trans. Math. Softw. 26 (2000) 363).
 */
export function chiSquared(bits: Bits, dof: number): number {
  const shape = dof / 2;
  if (shape < 1) return chiSquared(bits, dof + 2) * unit(bits) ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal(bits);
    const root = 1 + c * x;
    if (root <= 0) continue;
    const v = root * root * root;
    const p = unit(bits);
    const square = x * x;
    // The squeeze settles nearly all cases without a logarithm.
    if (p < 1 - 0.0331 * square * square) return 2 * d * v;
    if (Math.log(p) < 0.5 * square + d * (1 - v + Math.log(v))) return 2 * d * v;
  }
}
