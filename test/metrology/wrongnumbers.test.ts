import { describe, expect, it } from 'vitest';
import { notAboveZero } from '../../src/metrology/check';
import { coverageFactor, DEFAULT_COVERAGE, expand } from '../../src/metrology/coverage';
import { FOUR_OUTCOMES, judge } from '../../src/metrology/decision';
import { ratio } from '../../src/metrology/derive';
import { welchSatterthwaite } from '../../src/metrology/dof';
import { fitLine } from '../../src/metrology/line';
import { type Model, outputOf } from '../../src/metrology/model';
import { conformanceProbability } from '../../src/metrology/probability';
import { bad } from '../../src/photometry/outcome';
import { problemsOf } from './outcome';

const { NaN: NONE, POSITIVE_INFINITY: INFINITE } = Number;
const ONE_REPEAT = 'One repeat alone says nothing about repeatability: take at least two.';
const level = (p: number) => coverageFactor(5, { ...DEFAULT_COVERAGE, level: p });
const light = (value: number) => ({ id: 'l', label: 'black light', unit: 'lx', value, sensitivities: [] });
const relaxed = { ...FOUR_OUTCOMES, guard: { kind: 'expanded', factor: -0.5 } } as const;

describe('what a statistic cannot be made of is named with what was expected and what came', () => {
  it.each([
    [
      'a level that is certain',
      () => level(1),
      [['level of confidence', 'The level of confidence must lie between 0 and 1, both excluded; it is 1.']],
    ],
    [
      'k of no degrees of freedom',
      () => coverageFactor(0.5),
      [
        [
          'effective degrees of freedom',
          `The effective degrees of freedom must be at least 1; they are 0. ${ONE_REPEAT}`,
        ],
      ],
    ],
    [
      'U of a negative u',
      () => expand(-1, 5),
      [
        [
          'combined standard uncertainty',
          'The combined standard uncertainty must not be negative; it is -1.',
        ],
      ],
    ],
    [
      'parts of a budget, each by its number',
      () =>
        welchSatterthwaite([
          { u: 1, dof: 5 },
          { u: -2, dof: 0 },
        ]),
      [
        ['uncertainty of part 2', 'The uncertainty of part 2 must not be negative; it is -2.'],
        [
          'degrees of freedom of part 2',
          `The degrees of freedom of part 2 must be at least 1; they are 0. ${ONE_REPEAT}`,
        ],
      ],
    ],
    [
      'everything of a measured value at once',
      () => conformanceProbability({ value: NONE, u: -1, dof: 0 }, { lower: 1 }),
      [
        ['measured value', 'The measured value must be a finite number; it is NaN.'],
        ['standard uncertainty', 'The standard uncertainty must not be negative; it is -1.'],
        ['degrees of freedom', `The degrees of freedom must be at least 1; they are 0. ${ONE_REPEAT}`],
      ],
    ],
    [
      'crossed limits, even where nothing is uncertain',
      () => conformanceProbability({ value: 1.5, u: 0 }, { lower: 2, upper: 1 }),
      [['limits', 'The lower limit must lie below the upper limit; they are 2 and 1.']],
    ],
    [
      'a decision on no value by no limits',
      () => judge({ value: INFINITE, expanded: 1 }, {}),
      [
        ['measured value', 'The measured value must be a finite number; it is Infinity.'],
        ['limits', 'A decision needs a lower or an upper limit, or both.'],
      ],
    ],
    [
      'a decision with a negative U',
      () => judge({ value: 1, expanded: -2 }, { lower: 1 }),
      [['expanded uncertainty', 'The expanded uncertainty must not be negative; it is -2.']],
    ],
    [
      'four outcomes by a band on the wrong side',
      () => judge({ value: 1, expanded: 2 }, { lower: 1 }, relaxed),
      [['guard band', 'The guard band must not be negative where there are four outcomes; it is -1.']],
    ],
    [
      'a line through a point that is none',
      () => fitLine([1, 2, 3], [1, NONE, INFINITE]),
      [['points of the line', 'The points of the line must be a finite number; it is NaN.']],
    ],
    [
      'a line through two points',
      () => fitLine([1, 2], [1, 2]),
      [
        [
          'points of the line',
          'A line with its uncertainty needs at least 3 points with an x and a y each; there are 2 and 2.',
        ],
      ],
    ],
    [
      'a line straight up',
      () => fitLine([4, 4, 4], [1, 2, 3]),
      [['points of the line', 'A line is not defined: every x is 4.']],
    ],
    [
      'a ratio to nothing',
      () => ratio({ id: 'c', label: 'contrast', unit: '' }, light(5), light(0)),
      [['contrast', 'The contrast is not defined: black light is 0 lx.']],
    ],
    [
      'no number where one above 0 is asked for',
      () => bad(...notAboveZero(NONE, 'step')),
      [['step', 'The step must be a finite number; it is NaN.']],
    ],
    [
      'nought where a number above 0 is asked for',
      () => bad(...notAboveZero(0, 'step')),
      [['step', 'The step must be greater than 0; it is 0.']],
    ],
  ] as const)('%s', (_, refused, expected) =>
    expect(problemsOf(refused()).map(({ where, message }) => [where, message])).toEqual(expected),
  );

  it('a ratio to nothing is not defined', () =>
    expect(problemsOf(ratio({ id: 'c', label: 'contrast', unit: '' }, light(5), light(0)))[0]!.code).toBe(
      'not-defined',
    ));

  it('a result that a model does not have is told beside those it has', () => {
    const model: Model = { components: [], outputs: [light(1), { ...light(2), id: 'm' }] };
    expect(() => outputOf(model, 'x')).toThrow(new RangeError('No output "x"; there are l, m.'));
  });
});
