import { describe, expect, it } from 'vitest';
import { Bits, BLOCK } from '../../src/metrology/bits';

type State = [number, number, number, number];

/** The authors' xoshiro128starstar.c 1.1 in whole numbers without an end, cut to 32 bits after each step. */
function* reference([a, b, c, d]: State): Generator<number> {
  const cut = (x: bigint) => BigInt.asUintN(32, x);
  const rotate = (x: bigint, by: bigint) => cut((x << by) | (x >> (32n - by)));
  let s = [a, b, c, d].map((word) => cut(BigInt(word))) as [bigint, bigint, bigint, bigint];
  for (;;) {
    yield Number(BigInt.asIntN(32, rotate(cut(s[1] * 5n), 7n) * 9n));
    const [p, q] = [s[2] ^ s[0], s[3] ^ s[1]];
    s = [s[0] ^ q, s[1] ^ p, p ^ cut(s[1] << 9n), rotate(q, 11n)];
  }
}

const drawn = (bits: Bits, count: number) => Array.from({ length: count }, () => bits.next());
const first = (words: Generator<number>, count: number) =>
  Array.from({ length: count }, () => words.next().value as number);

describe('random bits', () => {
  it("are those of the authors' xoshiro128starstar.c 1.1 from the state 1, 2, 3, 4 (vector carried by Rust's rand_xoshiro)", () => {
    const vector = [
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ];
    expect(drawn(Bits.fromState([1, 2, 3, 4]), 10).map((word) => word >>> 0)).toEqual(vector);
    expect(first(reference([1, 2, 3, 4]), 10).map((word) => word >>> 0)).toEqual(vector);
  });

  it('go on over the ends of blocks as if there were none', () => {
    const state: State = [0xdeadbeef, -1, 7, 0x80000000];
    expect(drawn(Bits.fromState(state), 3 * BLOCK)).toEqual(first(reference(state), 3 * BLOCK));
  });

  it('repeat for a seed and differ between seeds', () => {
    const of = (seed: number) => drawn(new Bits(seed), 3000);
    expect(of(7)).toEqual(of(7));
    expect(of(7)).not.toEqual(of(8));
    expect(of(0).some((word) => word !== 0)).toBe(true);
  });
});

describe('words set aside', () => {
  const seed = 5;
  const setAside = (bits: Bits, count: number) => {
    const from = bits.reserve(count);
    return Array.from(bits.block.subarray(from, from + count));
  };

  it('are those that single calls would give, and single calls go on behind them', () => {
    const [bits, words] = [new Bits(seed), drawn(new Bits(seed), 2 * BLOCK)];
    expect(setAside(bits, 10)).toEqual(words.slice(0, 10));
    expect(bits.next()).toBe(words[10]);
    // Just what is left of the block, and then the next one.
    expect(setAside(bits, BLOCK - 11)).toEqual(words.slice(11, BLOCK));
    expect(setAside(bits, BLOCK)).toEqual(words.slice(BLOCK));
  });

  it('begin a new block where what is left is too short by one; what is left is thrown away', () => {
    const [bits, words] = [new Bits(seed), drawn(new Bits(seed), 2 * BLOCK)];
    setAside(bits, BLOCK - 4);
    expect(setAside(bits, 5)).toEqual(words.slice(BLOCK, BLOCK + 5));
    expect(bits.next()).toBe(words[BLOCK + 5]);
  });
});
