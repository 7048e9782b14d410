import { budget } from '../../metrology/budget';
import { decide } from '../../metrology/decision';
import { conformanceProbability } from '../../metrology/probability';
import { ruleOf } from '../../metrology/rules';
import type { FieldInput, RunInput } from '../../metrology/run/input';
import { blackDoubts, runModel } from '../../metrology/run/model';
import { all, chain, good, type Outcome } from '../../photometry/outcome';
import { mean } from '../../photometry/reading';
import { PRIMARIES, type Primary } from '../../photometry/tiles';
import { LUX } from '../../photometry/units';
import { stemOf } from '../../sheets/names/stem';
import { BUDGET_RESULT, budgetIds, canBeBound, isLumens, NO_U_OF_BOUND } from '../../sheets/run/budgetid';
import { sensorFactor, statementOf, wholeCauses } from '../../sheets/run/causes';
import type { RunSetup } from '../../sheets/runsetup';
import type { Recomputed } from '../kinds/kind';
import type { Readings, Typed } from './readings';

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
    const result = results.get(BUDGET_RESULT[id].name)!;
    // The model takes a run as a whole. A budget of the sheet does without what its result does without, so that the
    // model has no opinion where another field is not there yet.
    if (!model.ok && result.ok) continue;
    if (canBeBound(id) && result.ok && typeof result.value === 'string') {
      for (const part of ['U', 'Dof', 'K', 'Expanded']) found.set(`${id}${part}`, good(NO_U_OF_BOUND));
      continue;
    }
    const both = chain(all([model, result] as const), ([whole]) => good(whole));
    const spread = chain(both, (whole) =>
      chain(
        budget(whole, BUDGET_RESULT[id].output, { level: setup.uncertainty.level, rounding: 'truncate' }),
        (one) =>
          chain(size, ({ width, height, area }) => {
            // The model multiplies width and height; lumens scale with the true area.
            const factor = isLumens(id) ? area / (width * height) : 1;
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
    if (id === 'White' || id === 'Colour') putDecision(found, setup, id, spread, result);
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
  id: 'White' | 'Colour',
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

/**
 * The run as the uncertainty model takes it. Only white must be complete: what other fields lack is missing from the
 * results that need them.
 */
export function inputOf(setup: RunSetup, readings: Readings, { width, height }: Size): Outcome<RunInput> {
  const { uncertainty: u, gain } = setup;
  const mm = (value: number | undefined) => (value === undefined ? undefined : value / 1000);
  const drift = readings.centres();
  const needed = all([fieldOf(setup, 'white', readings.typed('White')), readings.ambient()] as const);
  return chain(needed, ([white, lux]) =>
    good({
      ...causesOf(setup, readings, lux),
      image: {
        width,
        height,
        widthHalf: mm(u.width),
        heightHalf: mm(u.height),
        squareHalf: u.square,
        isOneLength: setup.image.shape === 'rectangle',
      },
      white,
      ...furtherFields(setup, readings),
      ...(drift.ok ? { drift: { first: drift.value[0], last: drift.value[1] } } : {}),
      screen: { gain, half: u.gain === undefined ? undefined : u.gain * gain },
      others: u.other
        ? [{ label: 'Another cause', half: u.other, distribution: 'rectangular', appliesTo: 'all' }]
        : [],
    }),
  );
}

/** What is known of the meter and of its readings, whatever is read. */
function causesOf(setup: RunSetup, readings: Readings, lux: readonly number[]) {
  const { meter, uncertainty: u } = setup;
  return {
    meter: {
      ofReading: u.ofReading,
      ...(u.ofReading === undefined ? {} : statementOf(u.statement)),
      meterClass: u.meterClass === 'unknown' ? undefined : u.meterClass,
      digits: u.digits,
      digit: meter.digit,
      luxPerUnit: LUX[meter.unit],
    },
    ...ambientOf(setup, lux, readings),
    ...wholeCauses(u),
  };
}

/**
 * Doubts of the two blacks, each where it can be told: it needs no white, unless the ambient light has nothing but
 * white to be judged by.
 */
export function doubtsOf(setup: RunSetup, readings: Readings): ReturnType<typeof blackDoubts> {
  const { black, board } = furtherFields({ ...setup, colour: 'none' }, readings);
  const isJudged = setup.ambient === 'none' && setup.uncertainty.ambient === undefined;
  const white = isJudged ? fieldOf(setup, 'white', readings.typed('White')) : good(NO_LIGHT);
  const lux = readings.ambient();
  if (!white.ok || !lux.ok) return {};
  return blackDoubts({
    ...causesOf(setup, readings, lux.value),
    image: { width: 1, height: 1 },
    white: white.value,
    ...(black ? { black } : {}),
    ...(board ? { board } : {}),
  });
}
const NO_LIGHT: FieldInput = { repeats: [Array<number>(9).fill(0)] };

type Further = Pick<RunInput, 'red' | 'green' | 'blue' | 'black' | 'board'>;

function furtherFields(setup: RunSetup, readings: Readings): Further {
  const found: { -readonly [name in keyof Further]: Further[name] } = {};
  if (setup.colour !== 'none') {
    for (const primary of PRIMARIES) {
      const stem = stemOf(primary);
      const field = fieldOf(setup, primary, readings.typed(stem));
      if (field.ok) found[primary] = field.value;
    }
  }
  const black = setup.black ? fieldOf(setup, 'black', readings.typedBlack()) : undefined;
  if (black?.ok) found.black = black.value;
  const board = setup.checkerboard ? readings.typedBoard() : undefined;
  if (board?.ok) {
    const { correction } = readings.conversion('white');
    found.board = {
      ...board.value,
      correction,
      blackSpectralHalf: setup.uncertainty.spectral?.black,
    };
  }
  return found;
}

function fieldOf(
  { meter, uncertainty }: RunSetup,
  name: Primary | 'white' | 'black',
  typed: Outcome<Typed>,
): Outcome<FieldInput> {
  // The black field is read with the correction for white.
  const correction =
    meter.calibration * meter.corrections[name === 'black' ? 'white' : name] * sensorFactor(uncertainty);
  return chain(typed, ({ repeats, ranges }) =>
    good({ repeats, range: ranges, correction, spectralHalf: uncertainty.spectral?.[name] }),
  );
}

function ambientOf(setup: RunSetup, lux: readonly number[], readings: Readings): Pick<RunInput, 'ambient'> {
  const half = setup.uncertainty.ambient;
  if (setup.ambient === 'none') return half === undefined ? {} : { ambient: { value: 0, half } };
  const range = readings.ambientRanges();
  return {
    ambient: {
      value: setup.ambient === 'once' ? mean(lux) : lux,
      half,
      ...(range.ok ? { range: range.value, calibration: setup.meter.calibration } : {}),
    },
  };
}
