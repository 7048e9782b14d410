import { conformanceProbability } from '../../src/metrology/probability';
import { ruleOf } from '../../src/metrology/rules';
import { runModel } from '../../src/metrology/run/model';
import type { Outcome } from '../../src/photometry/outcome';
import { budget } from '../metrology/budget';
import { decide } from '../metrology/decide';
import type { RandomRun } from './randomrun';
import { runInput } from './runinput';

function must<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new Error(outcome.problems.map(({ message }) => message).join(' '));
}

/** How many points rival the darkest and the brightest, by the model. */
export const rivalsOf = (run: RandomRun): number => must(runModel(runInput(run))).extremes.rivals;

/**
 * Uncertainties and decisions of a run by the uncertainty model, which knows nothing of sheets: single causes
 * and their covariances, against the sheet's grouped rows. `results` are the light outputs by the functions.
 */
export function byModel(
  run: RandomRun,
  results: Readonly<Record<string, number | string>>,
): Record<string, number | string> {
  const { setup } = run;
  const input = runInput(run);
  const model = must(runModel(input));
  const { level, rule } = setup.uncertainty;
  const expected: Record<string, number | string> = {};
  // The model multiplies width and height; the sheet has the true area of four sides. Lumens scale with it.
  const area = (results.WhiteLightOutput as number) / (results.WhiteIlluminance as number);
  const scale = area / (input.image.width * input.image.height);
  const { black, checkerboard } = setup;
  for (const [id, output, name] of [
    ['White', 'white', 'WhiteLightOutput'],
    ['Colour', 'colour', 'ColourLightOutput'],
    ['Ratio', 'ratio', 'ColourToWhite'],
    ['Luminance', 'luminance', 'ScreenLuminance'],
    ['Uniformity', 'uniformity', 'UniformityMinMax'],
    ...(black ? ([['Contrast', 'contrast', 'SequentialContrast']] as const) : []),
    ...(checkerboard ? ([['Board', 'board', 'BoardContrast']] as const) : []),
  ] as const) {
    const isLumens = id === 'White' || id === 'Colour';
    const factor = isLumens ? scale : 1;
    if (typeof results[name] === 'string') {
      // No number, no U: a bound says so, a refused reading leaves it waiting.
      const words = results[name].startsWith('at least') ? 'no U of a bound' : 'waiting';
      for (const part of ['U', 'Dof', 'K', 'Expanded']) expected[`${id}${part}`] = words;
      continue;
    }
    const { u, dof, k, expanded } = must(budget(model, output, { level, rounding: 'truncate' }));
    expected[`${id}U`] = u * factor;
    expected[`${id}Dof`] = dof;
    expected[`${id}K`] = k;
    expected[`${id}Expanded`] = expanded * factor;
    if (!isLumens) continue;
    const rated = id === 'White' ? setup.rated.white : setup.rated.colour;
    const names = [`${id}Limit`, `${id}Probability`, `${id}Verdict`] as const;
    if (rated === undefined) {
      for (const name of names) expected[name] = 'no rated value';
      continue;
    }
    const value = results[`${id}LightOutput`] as number;
    const limit = rated * setup.rated.minimumFraction;
    const measured = { value, u: u * factor, expanded: expanded * factor, dof: Math.floor(dof * (1 + 1e-9)) };
    expected[names[0]] = limit;
    expected[names[1]] = must(conformanceProbability(measured, { lower: limit }));
    expected[names[2]] = must(decide(measured, { lower: limit }, ruleOf(rule))).verdict;
  }
  return expected;
}
