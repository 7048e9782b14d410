import { expect, it } from 'vitest';
import type { Component } from '../../src/metrology/component';
import { type RunModel, runModel } from '../../src/metrology/run/model';
import type { Outcome } from '../../src/photometry/outcome';
import { cellsOf } from '../../src/sheets/address';
import type { CellValue } from '../../src/sheets/book';
import { comparisonPlan } from '../../src/sheets/comparison';
import { bookOf } from '../../src/sheets/realize';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { writeXlsx } from '../../src/xlsx/write';
import { compare } from '../metrology/compare';
import { type Common, merge } from '../metrology/merge';
import { cases } from '../tools/amount';
import { recalculate } from '../tools/libreoffice';
import { comparedRun, runWith } from './comparedruns';
import { filled, type RandomRun } from './randomrun';
import { runInput } from './runinput';

/*
 * The independent opinion: LibreOffice Calc recalculates whole workbooks of runs and their comparison from the
 * readings alone; every difference and its U must equal what test/metrology/compare.ts makes of the merged models,
 * which know nothing of sheets, budget rows or flags.
 */
const { meter, uncertainty } = defaultRunSetup();
const IMAGE = { shape: 'rectangle', known: 'width', length: 1.92, unit: 'm', across: 16, down: 10 } as const;
const METER = { ...meter, unit: 'lx', digit: 0.1, calibration: 1.02 } as const;
const KNOWN = {
  ...uncertainty,
  ofReading: 0.03,
  digits: 4,
  spectral: { white: 0.01, red: 0.04, green: 0.015, blue: 0.12 },
  width: 4,
  height: 5,
  square: 0.004,
  ambient: 0.3,
  gain: 0.06,
};

function must<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new Error(outcome.problems.map(({ message }) => message).join(' '));
}

/** Invented runs whose ambient light leaves every reading above 0: four with numbers for both contrasts, two with none. */
function sixRuns(common: Parameters<typeof runWith>[1]): RandomRun[] {
  const [both, none]: [RandomRun[], RandomRun[]] = [[], []];
  for (let seed = 1; both.length < 4 || none.length < 2; seed++) {
    const run = runWith(seed, common);
    const model = runModel(runInput(run));
    if (!model.ok) continue;
    const contrasts = model.value.outputs.filter(({ id }) => id === 'contrast' || id === 'board').length;
    if (contrasts === 2) both.push(run);
    if (contrasts === 0) none.push(run);
  }
  return [...both.slice(0, 3), ...none.slice(0, 2), both[3]!];
}

/** The model with the meter's digits as each run's own, as the sheet has them unless told otherwise. */
function ownDigits(model: RunModel): RunModel {
  const own = (component: Component): Component =>
    component.id.startsWith('digits:') ? { ...component, scope: 'run' } : component;
  return { ...model, components: model.components.map(own) };
}

interface Scene {
  readonly name: string;
  readonly runs: readonly RandomRun[];
  /** Meter and image of each run, by number. */
  readonly meters: readonly number[];
  readonly images: readonly number[];
  /** Somebody says that the light sources are of one kind. */
  readonly oneKind?: true;
}

/**
 * With light sources of one kind a budget's one row of white's spectral mismatch, a mixture of those of the primaries,
 * stands for rows of each: u of a difference comes out to this part of itself.
 */
const MIXTURE = 0.01;

const common = { meter: METER, image: IMAGE, uncertainty: KNOWN, gain: 1.1 };
const six = sixRuns(common);
const SCENES = cases<Scene>(
  [
    { name: 'two meters', runs: six, meters: [1, 1, 2, 2, 1, 2], images: six.map(() => 1) },
    { name: 'two images', runs: six.slice(0, 4), meters: [1, 1, 1, 1], images: [1, 2, 2, 1], oneKind: true },
  ],
  [
    { name: 'six runs, one meter, one image', runs: six, meters: six.map(() => 1), images: six.map(() => 1) },
    { name: 'nothing shared', runs: six, meters: [1, 2, 3, 4, 5, 6], images: [1, 2, 3, 4, 5, 6] },
  ],
);

it('comparisons, recalculated by LibreOffice, equal the merged models', async () => {
  const books = SCENES.map(({ runs, meters, images, oneKind = false }) => {
    const plans = runs.map(filled);
    const names = bookOf(plans).sheets.map(({ name }) => name);
    const compared = runs.map(({ plan }, i) => comparedRun(plan, names[i]!, meters[i], images[i]));
    const options = { title: 'Comparison', level: 0.95, sharing: { digits: false, spectral: oneKind } };
    return { book: bookOf([...plans, must(comparisonPlan(compared, options, 'cmp1'))]), names };
  });
  const files = await Promise.all(books.map(({ book }) => writeXlsx(book)));
  const sheets = (await recalculate(files, 240_000)).map(({ sheets: all }) => all.at(-1)!);
  const wrong: string[] = [];
  const compared: Record<string, number> = {};
  SCENES.forEach(({ name, runs, meters, images, oneKind }, s) => {
    const plan = books[s]!.book.sheets.at(-1)!;
    const rangeOf = (label: string) =>
      cellsOf(plan.names.find((entry) => entry.name === label)!.refersTo.split('!')[1]!);
    const valuesOf = (label: string): CellValue[] =>
      rangeOf(label).map((at) => sheets[s]!.cells[at]?.value ?? null);
    const models = runs.map((run, i) => ({
      name: `run ${i}`,
      model: ownDigits(must(runModel(runInput(run)))),
    }));
    for (const [id, output] of [
      ['White', 'white'],
      ['Colour', 'colour'],
      ['Ratio', 'ratio'],
      ['Luminance', 'luminance'],
      ['Uniformity', 'uniformity'],
      ['Contrast', 'contrast'],
      ['Board', 'board'],
    ] as const) {
      const measured = models.map(({ model }) => model.outputs.some((one) => one.id === output));
      const placed = runs.map(({ setup }) =>
        id === 'Contrast' ? setup.black : id === 'Board' ? setup.checkerboard : true,
      );
      if (placed.filter(Boolean).length < 2) continue;
      const [differences, us, verdicts] = ['Differences', 'U', 'Verdicts'].map((part) =>
        valuesOf(`${id}Pair${part}`),
      );
      const steps = valuesOf(`${id}DifferenceU`);
      let pair = 0;
      runs.forEach((_, i) => {
        for (let j = i + 1; j < runs.length; j++, pair++) {
          if (!measured[i] || !measured[j]) {
            // Not measured, or a bound: no difference and no verdict.
            if (typeof differences![pair] === 'number' || /diff|disting/.test(String(verdicts![pair])))
              wrong.push(`${name}, ${id} ${i}-${j}: ${verdicts![pair]}, though one has no number`);
            continue;
          }
          const shared: Common = [
            ...(meters[i] === meters[j]
              ? (['meter', ...(oneKind ? (['spectrum'] as const) : [])] as const)
              : []),
            ...(images[i] === images[j] ? (['image', 'screen'] as const) : []),
          ];
          const model = merge([models[i]!, models[j]!], shared);
          const expected = compare(model, `run ${i}/${output}`, `run ${j}/${output}`, {
            level: 0.95,
            rounding: 'truncate',
          });
          const near = (came: unknown, want: number, scale: number) =>
            typeof came === 'number' && Math.abs(came - want) <= scale;
          // A difference of two large numbers keeps the digits of the numbers, not its own.
          const size = Math.abs(models[i]!.model.outputs.find((one) => one.id === output)!.value);
          const says = `${name}, ${id} ${i}-${j}`;
          if (!near(differences![pair], expected.value, 1e-9 * size))
            wrong.push(`${says}: ${differences![pair]} for ${expected.value}`);
          const column = (run: number) => placed.slice(0, run).filter(Boolean).length;
          const u = steps[column(i) * placed.filter(Boolean).length + column(j)];
          if (!near(u, expected.u, (oneKind ? MIXTURE : 1e-9) * expected.u))
            wrong.push(`${says}: u ${u} for ${expected.u}`);
          // U holds a quantile: 1e-8; everything before it 1e-9.
          if (!near(us![pair], expected.expanded, (oneKind ? MIXTURE : 1e-8) * expected.expanded))
            wrong.push(`${says}: U ${us![pair]} for ${expected.expanded}`);
          const verdict = expected.isDifferent ? 'different' : 'not distinguishable';
          if (verdicts![pair] !== verdict) wrong.push(`${says}: ${verdicts![pair]} for ${verdict}`);
          compared[id] = (compared[id] ?? 0) + 1;
        }
      });
    }
  });
  expect(wrong).toEqual([]);
  const sixes = SCENES.filter(({ runs }) => runs.length === 6).length;
  const all = 15 * sixes + 6;
  expect(compared).toMatchObject({ White: all, Colour: all, Ratio: all, Luminance: all, Uniformity: all });
  // Four of the six runs have contrasts, three of the first four.
  expect(compared).toMatchObject({ Contrast: sixes * 6 + 3, Board: sixes * 6 + 3 });
}, 300_000);
