import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../src/functions/table';
import { wrap } from '../../src/functions/wrap';
import { lightOutput } from '../../src/photometry/lightoutput';
import { WORKED_RUN } from '../references/photometry';

const CALLS = 100_000;
/** The aim: a checked, explained call within three times the bare arithmetic. */
const AIM = 3;

class CellError extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}

/** Different readings for every call, so that nothing can be computed once and kept. */
const GRIDS = Array.from({ length: 1000 }, (_, k) => WORKED_RUN.nine.map((row) => row.map((e) => e + k / 7)));
const AREA = WORKED_RUN.width * WORKED_RUN.height;

/** What anybody would write by hand: add nine numbers, divide, multiply. */
function plain(grid: readonly (readonly number[])[], area: number): number {
  let sum = 0;
  for (const row of grid) for (const e of row) sum += e;
  return (sum / 9) * area;
}

function seconds(work: (grid: number[][]) => number): { time: number; sum: number } {
  let sum = 0;
  const start = performance.now();
  for (let i = 0; i < CALLS; i++) sum += work(GRIDS[i % GRIDS.length]!);
  return { time: (performance.now() - start) / 1000, sum };
}

/** The best of several turns, in turn with the other: what the machine does beside does not count. */
function compare(ours: (grid: number[][]) => number, theirs: (grid: number[][]) => number) {
  let [best, bestPlain] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let turn = 0; turn < 15; turn++) {
    const [a, b] = [seconds(ours), seconds(theirs)];
    expect(Math.abs(a.sum / b.sum - 1)).toBeLessThan(1e-12);
    [best, bestPlain] = [Math.min(best, a.time), Math.min(bestPlain, b.time)];
  }
  return { best, bestPlain, ratio: best / bestPlain };
}

describe('light output on nine readings, 100 000 calls', () => {
  const record = FUNCTIONS.find(({ id }) => id === 'OUTPUT')!;
  const call = wrap(record, () => CellError);

  it('the quantity itself, on numbers already checked, keeps the aim', () => {
    const flat = GRIDS.map((grid) => grid.flat());
    let [i, j] = [0, 0];
    const next = (k: number) => flat[k % flat.length]!;
    const figures = compare(
      () => {
        const outcome = lightOutput(next(i++), AREA);
        return outcome.ok ? outcome.value : Number.NaN;
      },
      () => plain([next(j++)], AREA),
    );
    print('the quantity itself', figures);
    expect(figures.ratio).toBeLessThan(AIM);
  });

  it.each([
    ['with all optional arguments left out', [null, null, null, null]],
    ['as the run sheet calls it', ['lx', 1, 1, 0]],
  ])('LIGHT.OUTPUT %s', (name, rest) => {
    const invocation = {};
    const figures = compare(
      (grid) => call(grid, AREA, ...rest, invocation) as number,
      (grid) => plain(grid, AREA),
    );
    // Every cell looked at, every argument read, checked and defaulted: dearer than the aim, and printed as it is.
    print(`LIGHT.OUTPUT ${name}`, figures);
  });
});

function print(what: string, { best, bestPlain, ratio }: ReturnType<typeof compare>): void {
  const ms = (time: number) => `${(time * 1e3).toFixed(1)} ms`;
  console.log(
    `light output, ${what}: ${ms(best)}, plain loop ${ms(bestPlain)}, ratio ${ratio.toFixed(1)} (aim ${AIM})`,
  );
}
