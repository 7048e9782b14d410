import { describe, expect, it, vi } from 'vitest';
import {
  all,
  bad,
  chain,
  explain,
  good,
  invalid,
  missing,
  type Outcome,
  type Problem,
} from '../../src/photometry/outcome';

const EMPTY = missing('point 2', 'Point 2 is missing.');
const BELOW = invalid('negative', 'point 5', 'Point 5 must not be negative; it is -1.');
const HIGH = invalid('too-large', 'point 9', 'Point 9 must be a finite number.');

describe('an outcome', () => {
  it('is a value, or problems that say where and what', () => {
    expect(good(5)).toEqual({ ok: true, value: 5 });
    expect(bad(EMPTY, BELOW)).toEqual({
      ok: false,
      problems: [
        { kind: 'missing', code: 'missing', where: 'point 2', message: 'Point 2 is missing.' },
        {
          kind: 'invalid',
          code: 'negative',
          where: 'point 5',
          message: 'Point 5 must not be negative; it is -1.',
        },
      ],
    });
  });
});

describe('chain', () => {
  const next = vi.fn((value: number): Outcome<number> => (value < 0 ? bad(BELOW) : good(2 * value)));
  it('goes on with a good value, to a good or a bad end', () => {
    expect(chain(good(4), next)).toEqual(good(8));
    expect(chain(good(-1), next)).toEqual(bad(BELOW));
  });
  it('lets a bad one pass and asks for nothing more', () => {
    next.mockClear();
    expect(chain(bad(EMPTY, HIGH), next)).toEqual(bad(EMPTY, HIGH));
    expect(next).not.toHaveBeenCalled();
  });
});

describe('all', () => {
  it.each<readonly [of: string, readonly Outcome<unknown>[], Outcome<unknown>]>([
    ['good ones: their values in order', [good(3), good('a'), good(0)], good([3, 'a', 0])],
    ['none: no values, and nothing wrong', [], good([])],
    ['one bad among good ones: its problem alone', [good(3), bad(BELOW), good(0)], bad(BELOW)],
    [
      'several bad ones: every problem in order',
      [bad(EMPTY, BELOW), good(3), bad(HIGH)],
      bad(EMPTY, BELOW, HIGH),
    ],
  ])('of %s', (_, outcomes, together) => expect(all(outcomes)).toEqual(together));

  it('holds more problems than a call takes arguments', () => {
    const full: Outcome<number> = { ok: false, problems: Array<Problem>(200_000).fill(EMPTY) };
    const together = all([good(1), full]);
    expect(together.ok ? 0 : together.problems.length).toBe(200_000);
  });
});

describe('explain', () => {
  it('is the sentences one after the other, in the order found', () => {
    expect(explain([BELOW, EMPTY])).toBe('Point 5 must not be negative; it is -1. Point 2 is missing.');
    expect(explain([HIGH])).toBe('Point 9 must be a finite number.');
    expect(explain([])).toBe('');
  });
});
