import { bad, good, invalid, type Outcome, type Problem } from '../photometry/outcome';
import { Bits } from './bits';
import { notFinite, notProbability } from './check';
import { DEFAULT_LEVEL } from './coverage';
import { type Interval, shortestInterval, sortForIntervals, symmetricInterval } from './interval';
import { type FiniteDof, sampler } from './sampler';
import type { TrialModel } from './trial';

export interface MonteCarloOptions {
  /** JCGM 101 7.2.2 asks for about 10⁶ where a 95 % interval is wanted to two digits. */
  readonly trials?: number;
  /** Whole number; the same seed gives the same trials. */
  readonly seed?: number;
  readonly level?: number;
  readonly finiteDof?: FiniteDof;
  /** Trials between two reports of progress. */
  readonly chunk?: number;
  /** Told after each chunk: trials done, trials wanted. */
  readonly onProgress?: (done: number, trials: number) => void;
}

/** What 10⁶ trials say about one output. */
export interface Simulated {
  readonly id: string;
  readonly mean: number;
  readonly u: number;
  readonly symmetric: Interval;
  readonly shortest: Interval;
}

export interface Simulation {
  readonly trials: number;
  readonly seed: number;
  readonly level: number;
  readonly outputs: readonly Simulated[];
}

/** Numbers kept at once: 40 million are 320 MB. More is refused rather than let the page run out of memory. */
const MOST_NUMBERS = 40_000_000;
const DEFAULT_TRIALS = 1_000_000;
const DEFAULT_CHUNK = 50_000;
/** Any fixed number would do; it is stated with the result. */
const DEFAULT_SEED = 20_080_901;

/**
 * Propagation of distributions by Monte Carlo (JCGM 101, clause 7): every component drawn independently, all
 * outputs of one trial from the same draw. A million trials take seconds; the pane runs them in a worker.
 */
export function simulate(model: TrialModel, options: MonteCarloOptions = {}): Outcome<Simulation> {
  const { trials = DEFAULT_TRIALS, seed = DEFAULT_SEED, level = DEFAULT_LEVEL } = options;
  const { finiteDof = 'student', chunk = DEFAULT_CHUNK, onProgress } = options;
  const problems = optionProblems(model, trials, seed, level, chunk);
  if (problems.length > 0) return bad(...problems);
  const stored = model.outputs.map(() => new Float64Array(trials));
  const run = trialLoop(model, stored, new Bits(seed), finiteDof);
  for (let from = 0; from < trials; from += chunk) {
    const to = Math.min(trials, from + chunk);
    run(from, to);
    onProgress?.(to, trials);
  }
  const outputs: Simulated[] = [];
  for (const [i, { id, label }] of model.outputs.entries()) {
    const summary = summarise(id, stored[i]!, level);
    if (!Number.isFinite(summary.u)) {
      return bad(
        invalid(
          'not-defined',
          label,
          `The Monte Carlo of ${label} gave values that are no numbers: a divisor reaches 0.`,
        ),
      );
    }
    outputs.push(summary);
  }
  return good({ trials, seed, level, outputs });
}

function trialLoop(model: TrialModel, stored: readonly Float64Array[], bits: Bits, finiteDof: FiniteDof) {
  const { components, outputs, evaluate } = model;
  const draw = sampler(components, finiteDof);
  const x = Float64Array.from(components, ({ value }) => value);
  const y = new Float64Array(outputs.length);
  return (from: number, to: number) => {
    for (let trial = from; trial < to; trial++) {
      draw(bits, x);
      evaluate(x, y);
      for (let k = 0; k < stored.length; k++) stored[k]![trial] = y[k]!;
    }
  };
}

function summarise(id: string, values: Float64Array, level: number): Simulated {
  let sum = 0;
  for (const value of values) sum += value;
  const mean = sum / values.length;
  let squares = 0;
  for (const value of values) squares += (value - mean) * (value - mean);
  sortForIntervals(values, level);
  return {
    id,
    mean,
    u: Math.sqrt(squares / (values.length - 1)),
    symmetric: symmetricInterval(values, level),
    shortest: shortestInterval(values, level),
  };
}

function optionProblems(
  model: TrialModel,
  trials: number,
  seed: number,
  level: number,
  chunk: number,
): Problem[] {
  const whole = (value: number, least: number, where: string) =>
    Number.isInteger(value) && value >= least
      ? []
      : [
          invalid(
            'out-of-bounds',
            where,
            `The ${where} must be a whole number of at least ${least}; it is ${value}.`,
          ),
        ];
  const problems = [
    ...whole(trials, 2, 'number of trials'),
    ...whole(chunk, 1, 'number of trials in a chunk'),
    ...notFinite(seed, 'seed'),
    ...notProbability(level, 'level of confidence'),
  ];
  if (problems.length > 0 || trials * model.outputs.length <= MOST_NUMBERS) return problems;
  return [
    invalid(
      'too-large',
      'number of trials',
      `${trials} trials of ${model.outputs.length} results need more than ${MOST_NUMBERS} numbers at once: take fewer.`,
    ),
  ];
}
