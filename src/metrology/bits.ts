/**
 * xoshiro128** 1.1 by D. Blackman and S. Vigna ("Scrambled linear pseudorandom number generators", ACM Trans.
 * Math. Softw. 47, 2021), made in blocks: 32 random bits at a time, period 2¹²⁸ − 1. A seed is spread over the
 * state by SplitMix32, so that neighbouring seeds start far apart.
 */
export class Bits {
  /** Words made ahead; `reserve` tells which of them are the caller's. */
  readonly block = new Int32Array(BLOCK);
  private readonly state: Int32Array;
  private cursor = BLOCK;

  /** @param seed a whole number; its low 32 bits count */
  constructor(seed: number) {
    this.state = spread(seed);
  }

  /** A generator that continues from a given state, as the authors' reference code does. */
  static fromState(words: readonly [number, number, number, number]): Bits {
    const bits = new Bits(0);
    bits.state.set(words.map((word) => word | 0));
    return bits;
  }

  /** The next 32 bits as a signed whole number. */
  next(): number {
    if (this.cursor === BLOCK) this.refill();
    return this.block[this.cursor++]!;
  }

  /**
   * Sets the next `count` words (at most BLOCK) aside and tells where in `block` they begin: a loop over them
   * is several times faster than as many calls. They stay valid until the next reserve; what is left of a block that is too
   * short is thrown away.
   */
  reserve(count: number): number {
    if (this.cursor + count > BLOCK) this.refill();
    const from = this.cursor;
    this.cursor += count;
    return from;
  }

  private refill(): void {
    const { state, block } = this;
    // Local copies keep the four words in registers for the whole block.
    let a = state[0]! | 0;
    let b = state[1]! | 0;
    let c = state[2]! | 0;
    let d = state[3]! | 0;
    for (let i = 0; i < BLOCK; i++) {
      const m = Math.imul(b, 5);
      block[i] = Math.imul((m << 7) | (m >>> 25), 9);
      const t = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= t;
      d = (d << 11) | (d >>> 21);
    }
    state[0] = a;
    state[1] = b;
    state[2] = c;
    state[3] = d;
    this.cursor = 0;
  }
}

/** Words in a block: 4 KB stay in the processor's nearest cache. */
export const BLOCK = 1024;

/** SplitMix32: the golden-ratio step with a 32-bit finaliser of MurmurHash3's kind (constants: C. Wellons' lowbias32, from memory). */
function spread(seed: number): Int32Array {
  let z = seed | 0;
  const words = new Int32Array(4);
  for (let i = 0; i < 4; i++) {
    z = (z + 0x9e3779b9) | 0;
    let x = z;
    x = Math.imul(x ^ (x >>> 16), 0x21f0aaad);
    x = Math.imul(x ^ (x >>> 15), 0x735a2d97);
    words[i] = x ^ (x >>> 15);
  }
  return words;
}
