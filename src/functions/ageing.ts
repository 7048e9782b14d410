import { DEFAULT_LEVEL } from '../metrology/coverage';
import { all, bad, chain, good, invalid, missing, type Outcome } from '../photometry/outcome';
import { type AgeingFit, fitAgeing } from '../procurement/ageing/fit';
import {
  FIRST_DOUBTS,
  type HoursTo,
  hoursTo,
  hoursToPart,
  type Initial,
  initialOf,
} from '../procurement/ageing/hours';
import type { AgeingPoint } from '../procurement/ageing/points';
import { gappedColumn, known } from './lists';
import { choice, number } from './params';
import { define, type Result } from './record';

const series = () => ({
  hours: gappedColumn('hours of the light source at each measurement', 'h'),
  output: gappedColumn('light output at each measurement; a row without one is not measured yet', 'lm'),
});
const initial = () =>
  known('light output when new, at 0 h; if not known, the first measurement counts', 'lm');

const SOURCE =
  'exponential fall and least squares of ln Φ: TM-21 (from memory); made for LEDs, an extrapolation by analogy for lamps and lasers';

/**
 * Rows of both columns as points. A light output of 0 is how an empty cell arrives: not measured yet. 0 hours are
 * taken as such only where no row before has more: below that they are an empty cell too.
 */
function pointsOf(
  hours: readonly (number | undefined)[],
  outputs: readonly (number | undefined)[],
): Outcome<AgeingPoint[]> {
  if (hours.length !== outputs.length) {
    return bad(
      invalid(
        'shape',
        'columns',
        `Hours and light outputs must have as many rows as each other; they have ${hours.length} and ${outputs.length}.`,
      ),
    );
  }
  const begun = hours.findIndex((at) => at !== undefined && at > 0);
  const points = outputs.map((output, i): Outcome<AgeingPoint | undefined> => {
    if (output === undefined || output === 0) return good(undefined);
    const at = hours[i];
    if (at !== undefined && !(at === 0 && begun >= 0 && i > begun)) return good({ hours: at, output });
    return bad(
      missing(
        `hours in row ${i + 1}`,
        `The hours in row ${i + 1} are missing${at === 0 ? ': the cell is empty or 0, and 0 h can only come first' : ''}.`,
      ),
    );
  });
  return chain(all(points), (rows) => good(rows.filter((row) => row !== undefined)));
}

interface Series {
  readonly hours: readonly (number | undefined)[];
  readonly output: readonly (number | undefined)[];
  readonly initialOutput?: number;
}

function fitted<T>(
  { hours, output, initialOutput }: Series,
  next: (fit: AgeingFit, initial: Initial) => Outcome<T>,
): Outcome<T> {
  return chain(pointsOf(hours, output), (points) =>
    chain(fitAgeing(points), (fit) => chain(initialOf(fit, initialOutput), (start) => next(fit, start))),
  );
}

/** Hours as a cell shows them: a number, 0 where the light lies at or below it throughout, "more than 36000" at the cap, or that no fall is seen. */
function hoursCell({ state, hours, capped }: HoursTo): number | string {
  if (state === 'no fall seen' || hours === undefined) return 'no fall seen';
  return capped ? `more than ${Math.floor(hours)}` : hours;
}

function row(name: string, result: HoursTo): (number | string)[] {
  const { state } = result;
  // Where no fall is seen, sheets of earlier layouts hold an empty cell against this.
  const interval = state === 'no fall seen' ? undefined : result.interval;
  return [name, hoursCell(result), interval?.lower ?? '', interval?.upper ?? (interval ? 'open' : ''), state];
}

export const ageingFunctions = [
  define({
    id: 'AGEINGRATE',
    summary: 'Rate at which the light output of a unit falls, from measurements over hours.',
    params: series(),
    result: { kind: 'number', unit: 'per h' },
    formula: 'Φ(t) = B·e^(−αt); α = −slope of ln Φ over t by least squares',
    source: SOURCE,
    example: '=LIGHT.AGEINGRATE(A2:A7,B2:B7)',
    compute: (args) => fitted(args, ({ rate }) => good(rate)),
  }),
  define({
    id: 'AGEINGHOURS',
    summary:
      'Hours of the light source at which a part of the initial light output is left, such as 0.7 or 0.5.',
    params: {
      ...series(),
      part: number('part of the initial light output', 'part of 1', { moreThan: 0, max: 0.9999 }),
      initialOutput: initial(),
    },
    result: { kind: 'number or text', unit: 'h' },
    formula: 't = ln(B ÷ (part × initial)) ÷ α; no further than 6 × the observed hours',
    source: SOURCE,
    example: '=LIGHT.AGEINGHOURS(A2:A7,B2:B7,0.7)',
    compute: ({ part, ...rest }): Outcome<Result> =>
      fitted(rest, (fit, start) => chain(hoursToPart(fit, start, part), (to) => good(hoursCell(to)))),
  }),
  define({
    id: 'AGEINGHOURSTO',
    summary:
      'Hours of the light source at which the light output has fallen to a value, such as what the room needs.',
    params: {
      ...series(),
      targetOutput: number('light output to fall to', 'lm', { moreThan: 0 }),
      initialOutput: initial(),
    },
    result: { kind: 'number or text', unit: 'h' },
    formula: 't = ln(B ÷ target) ÷ α; no further than 6 × the observed hours',
    source: SOURCE,
    example: '=LIGHT.AGEINGHOURSTO(A2:A7,B2:B7,2500)',
    compute: ({ targetOutput, ...rest }): Outcome<Result> =>
      fitted(rest, (fit, start) => chain(hoursTo(fit, start, targetOutput), (to) => good(hoursCell(to)))),
  }),
  define({
    id: 'AGEINGTABLE',
    summary:
      'The ageing of a unit as a table: fit with standard uncertainties, then hours to 70 %, to 50 % and to the need, each with its interval.',
    params: {
      ...series(),
      neededOutput: known('light output the room needs', 'lm'),
      initialOutput: initial(),
      level: number('level of confidence', '', { moreThan: 0, max: 0.999999 }, DEFAULT_LEVEL),
      // Left out as sheets of earlier layouts leave it out: their intervals stay what they were.
      firstMeasurement: choice(
        'whether a part of the first measurement shares its doubt: without it the interval is too short',
        'FIRSTDOUBT',
        FIRST_DOUBTS,
        'exact',
      ),
    },
    result: { kind: 'table', unit: 'lm, per h, h' },
    formula: 'least squares of ln Φ on t; interval of the crossing by Student’s t and Fieller’s theorem',
    source: SOURCE,
    example: '=LIGHT.AGEINGTABLE(A2:A7,B2:B7,2500,,0.9545,"in doubt")',
    compute: ({ neededOutput, level, firstMeasurement, ...rest }) =>
      fitted(rest, (fit, start) => {
        const ways = [
          hoursToPart(fit, start, 0.7, level, firstMeasurement),
          hoursToPart(fit, start, 0.5, level, firstMeasurement),
          ...(neededOutput === undefined ? [] : [hoursTo(fit, start, neededOutput, level)]),
        ];
        return chain(all(ways), (found) =>
          good([
            ['', 'value', 'from', 'to', 'note'],
            ['light output at 0 h by the fit', fit.start, '', '', `u = ${fit.uStart.toPrecision(2)} lm`],
            ['rate of fall', fit.rate, '', '', `u = ${fit.uRate.toPrecision(2)} per h`],
            ['initial light output', start.output, '', '', start.kind],
            ...['hours to 70 %', 'hours to 50 %', 'hours to the need']
              .slice(0, found.length)
              .map((name, i) => row(name, found[i]!)),
            ['projected no further than', found[0]!.cap, '', '', '6 × the observed hours'],
          ]),
        );
      }),
  }),
];
