import { budget } from '../../metrology/budget';
import { decide } from '../../metrology/decision';
import { conformanceProbability } from '../../metrology/probability';
import { ruleOf } from '../../metrology/rules';
import type { FieldInput, RunInput } from '../../metrology/run/input';
import { runModel } from '../../metrology/run/model';
import { all, chain, good, type Outcome } from '../../photometry/outcome';
import { mean } from '../../photometry/reading';
import { PRIMARIES } from '../../photometry/tiles';
import { LUX } from '../../photometry/units';
import { BUDGET_RESULT, type BudgetId, budgetIds } from '../../sheets/run/budgetid';
import type { RunSetup } from '../../sheets/runsetup';
import type { FieldStem, Readings } from './readings';
import type { Recomputed } from './run';

/** Image of a run in metres; the area is the true one where the image is no rectangle. */
export interface Size {
  readonly width: number;
  readonly height: number;
  readonly area: number;
}

/**
 * Uncertainties and decisions of a run by the uncertainty model, which knows single causes and their
 * covariances and nothing of the sheet's grouped rows.
 */
export function recomputeUncertainty(
  setup: RunSetup,
  readings: Readings,
  size: Outcome<Size>,
  results: ReadonlyMap<string, Recomputed>,
): Map<string, Recomputed> {
  const found = new Map<string, Recomputed>();
  const model = chain(
    chain(size, (image) => inputOf(setup, readings, image)),
    runModel,
  );
  for (const id of budgetIds(setup)) {
    const output = { White: 'white', Colour: 'colour', Ratio: 'ratio' }[id];
    const spread = chain(model, (whole) =>
      chain(budget(whole, output, { level: setup.uncertainty.level, rounding: 'truncate' }), (one) =>
        chain(size, ({ width, height, area }) => {
          // The model multiplies width and height; lumens scale with the true area.
          const factor = id === 'Ratio' ? 1 : area / (width * height);
          return good({ u: one.u * factor, dof: one.dof, k: one.k, expanded: one.expanded * factor });
        }),
      ),
    );
    found.set(
      `${id}U`,
      chain(spread, ({ u }) => good(u)),
    );
    found.set(
      `${id}Dof`,
      chain(spread, ({ dof }) => good(dof)),
    );
    found.set(
      `${id}K`,
      chain(spread, ({ k }) => good(k)),
    );
    found.set(
      `${id}Expanded`,
      chain(spread, ({ expanded }) => good(expanded)),
    );
    if (id !== 'Ratio') putDecision(found, setup, id, spread, results.get(BUDGET_RESULT[id].name)!);
  }
  return found;
}

interface Spread {
  readonly u: number;
  readonly dof: number;
  readonly k: number;
  readonly expanded: number;
}

function putDecision(
  found: Map<string, Recomputed>,
  { rated, uncertainty }: RunSetup,
  id: Exclude<BudgetId, 'Ratio'>,
  spread: Outcome<Spread>,
  result: Recomputed,
): void {
  const value = id === 'White' ? rated.white : rated.colour;
  if (value === undefined) {
    for (const name of ['Limit', 'Probability', 'Verdict']) found.set(`${id}${name}`, good('no rated value'));
    return;
  }
  const lower = value * rated.minimumFraction;
  const measured = chain(all([spread, result] as const), ([{ u, dof, expanded }, y]) =>
    // Cut as the sheet cuts it, with room for a whole number that is not quite one.
    good({ value: Number(y), u, expanded, dof: Math.floor(dof * (1 + 1e-9)) }),
  );
  found.set(`${id}Limit`, good(lower));
  found.set(
    `${id}Probability`,
    chain(measured, (m) => conformanceProbability(m, { lower })),
  );
  found.set(
    `${id}Verdict`,
    chain(measured, (m) =>
      chain(decide(m, { lower }, ruleOf(uncertainty.rule)), ({ verdict }) => good(verdict)),
    ),
  );
}

/** The run as the uncertainty model takes it. */
function inputOf(setup: RunSetup, readings: Readings, { width, height }: Size): Outcome<RunInput> {
  const { meter, uncertainty: u } = setup;
  const mm = (value: number | undefined) => (value === undefined ? undefined : value / 1000);
  const stems: FieldStem[] = setup.colour === 'none' ? ['White'] : ['White', 'Red', 'Green', 'Blue'];
  const fields = all(stems.map((stem) => fieldOf(setup, readings, stem)));
  const ambient = readings.ambient();
  const drift = readings.centres();
  return chain(all([fields, ambient] as const), ([[white, ...colours], lux]) =>
    good({
      image: { width, height, widthHalf: mm(u.width), heightHalf: mm(u.height), squareHalf: u.square },
      meter: {
        ofReading: u.ofReading,
        meterClass: u.meterClass === 'unknown' ? undefined : u.meterClass,
        digits: u.digits,
        digit: meter.digit,
        luxPerUnit: LUX[meter.unit],
      },
      white: white!,
      ...Object.fromEntries(colours.map((field, i) => [PRIMARIES[i]!, field])),
      ...ambientOf(setup, lux),
      ...(drift.ok ? { drift: { first: drift.value[0], last: drift.value[1] } } : {}),
      others: u.other
        ? [{ label: 'Another cause', half: u.other, distribution: 'rectangular', appliesTo: 'all' }]
        : [],
    }),
  );
}

function fieldOf(setup: RunSetup, readings: Readings, stem: FieldStem): Outcome<FieldInput> {
  const colour = stem.toLowerCase() as Lowercase<FieldStem>;
  return chain(readings.typed(stem), ({ repeats, ranges }) =>
    good({
      repeats,
      range: ranges,
      correction: readings.conversion(colour).correction,
      spectralHalf: setup.uncertainty.spectral?.[colour],
    }),
  );
}

function ambientOf(setup: RunSetup, lux: readonly number[]): Pick<RunInput, 'ambient'> {
  const half = setup.uncertainty.ambient;
  if (setup.ambient === 'none') return half === undefined ? {} : { ambient: { value: 0, half } };
  return { ambient: { value: setup.ambient === 'once' ? mean(lux) : lux, half } };
}
