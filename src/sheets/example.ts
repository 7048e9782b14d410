import { acceptancePlan } from './acceptance';
import { type LineCells, type LinkedLine, lineOfBatch, lineOfRun, linkedCells } from './acceptance/links';
import { ageingPlan } from './ageing';
import type { Book } from './book';
import { type BuiltSheet, comparedSheet, linkedSheet, listedSheet } from './built';
import { certificatePlan } from './certificate';
import { comparisonPlan, DEFAULT_COMPARISON } from './comparison';
import { exampleSeries } from './example/ageing';
import { exampleAsked, exampleWording } from './example/asked';
import { exampleBatch } from './example/batch';
import { chosenUnits, exampleLot, exampleUnits } from './example/lot';
import { exampleId, marked } from './example/mark';
import { EXAMPLE_OFFERS, EXAMPLE_ROOMS, EXAMPLE_USE, ISSUER } from './example/network';
import { DATA_SHEET, exampleRun, exampleSetup } from './example/runs';
import { addressesOf, withFormulas } from './filled';
import { needPlan } from './need';
import { offersPlan } from './offers';
import { overviewPlan } from './overview';
import type { Plan } from './plan';
import { freeName, realize } from './realize';

/*
 * The ready example: a regional library network buys 60 units for its 14 reading rooms. Everything typed in it is
 * invented and says so; everything else is computed, here as on any sheet.
 */

/** One sheet of the example, to be built after those before it. */
export interface ExampleStep {
  readonly key: string;
  /** What it is, for somebody who waits. */
  readonly label: string;
  /** @param built sheets built already, by key */
  readonly make: (built: ReadonlyMap<string, BuiltSheet>, id: string) => Plan;
}

/** All sheets in the order of their tabs. */
export function exampleSteps(): readonly ExampleStep[] {
  const lot = exampleLot();
  const units = exampleUnits(lot);
  const chosen = chosenUnits(lot);
  const asked = exampleAsked();
  const unit = (serial: string) => units.get(serial)!;
  const inFull = Object.values(chosen);
  const rest = lot.draw.drawn.map(({ serial }) => serial).filter((serial) => !inFull.includes(serial));
  const steps: ExampleStep[] = [
    {
      key: 'need',
      label: `Need of ${EXAMPLE_ROOMS.length} reading rooms`,
      make: (_, id) =>
        needPlan({ rooms: EXAMPLE_ROOMS, spare: 2, wording: exampleWording(asked, lot.plan) }, id),
    },
    {
      key: 'offers',
      label: `${EXAMPLE_OFFERS.length} offers`,
      make: (_, id) => offersPlan({ asked, use: EXAMPLE_USE, offers: EXAMPLE_OFFERS, spare: 2 }, id),
    },
    {
      key: 'sound',
      label: 'Run of a sound unit, with repeats',
      make: (_, id) =>
        exampleRun(
          unit(chosen.sound),
          { repeats: 3, ambient: 'nine points', corners: true, checkerboard: true },
          'Warmed up for 20 minutes. Every point read three times, meter taken away in between.',
          id,
        ),
    },
    {
      key: 'tiled',
      label: 'Run of a sound unit, tiled patterns',
      make: (_, id) =>
        exampleRun(
          unit(chosen.tiled),
          { colour: 'tiled patterns', uncertainty: { ...exampleSetup('').uncertainty, ...DATA_SHEET } },
          'Warmed up for 20 minutes. Colour by three tiled patterns instead of full fields. Here the meter’s data sheet and the distances are stated, which the other runs go without: compare the doubt of white.',
          id,
        ),
    },
    {
      key: 'boosted',
      label: 'Run of a unit that is bright in white only',
      make: (_, id) =>
        exampleRun(
          unit(chosen.boosted),
          {},
          'White is as bright as rated; colour pictures are visibly darker than those of the other units.',
          id,
        ),
    },
    {
      key: 'aged',
      label: 'Run of a unit that is not new',
      make: (_, id) =>
        exampleRun(
          unit(chosen.aged),
          { date: '2026-03-05' },
          'The counter of the light source reads 3870 h although the unit was delivered as new; dust behind the lens.',
          id,
        ),
    },
    {
      key: 'batch',
      label: `Batch of the ${rest.length} others of the sample`,
      make: (_, id) => exampleBatch(rest.map(unit), id),
    },
    {
      key: 'comparison',
      label: 'Comparison of the four runs',
      make: (built, id) => {
        const plan = comparisonPlan(
          // All runs of the example were read with one meter from one image.
          RUNS.map((key) => comparedSheet(built.get(key)!, 1, 1)),
          DEFAULT_COMPARISON,
          id,
        );
        if (!plan.ok) throw new Error('The runs of the example can be compared');
        return plan.value;
      },
    },
    {
      key: 'acceptance',
      label: `Acceptance of a lot of ${lot.serials.length}`,
      make: (built, id) => {
        const plan = acceptancePlan(lot, id);
        const line = (serial: string) => lot.serials.indexOf(serial);
        const batch = linkedSheet(built.get('batch')!);
        const lines = new Map<number, (at: LineCells) => LinkedLine>([
          ...rest.map((serial) => [line(serial), (at: LineCells) => lineOfBatch(batch, at)] as const),
          ...RUNS.map((key) => {
            const run = linkedSheet(built.get(key)!);
            return [line(chosen[key]), (at: LineCells) => lineOfRun(run, at)] as const;
          }),
        ]);
        return withFormulas(plan, linkedCells(addressesOf(plan), lines));
      },
    },
    {
      key: 'certificate',
      label: 'Certificate of the sound unit',
      make: (built, id) =>
        certificatePlan(
          { run: linkedSheet(built.get('sound')!), number: '2026-001 (invented)', issuedBy: ISSUER },
          id,
        ),
    },
    ...exampleSeries(asked.atEnd).map((series, i) => ({
      key: `ageing${i + 1}`,
      label: `Ageing, ${series.projector}`,
      make: (_: unknown, id: string) => ageingPlan(series, id),
    })),
    {
      key: 'overview',
      label: 'Overview of the workbook',
      make: (built, id) => overviewPlan({ sheets: [...built.values()].map(listedSheet), gone: [] }, id),
    },
  ];
  return steps.map((step) => ({
    ...step,
    make: (built, id) => marked(step.make(built, exampleId(id))),
  }));
}

/** Keys of the runs, in the order of their tabs. */
const RUNS = ['sound', 'tiled', 'boosted', 'aged'] as const;

/** The example as a workbook, before anything has been calculated. */
export function exampleBook(makeId: () => string): Book {
  const built = new Map<string, BuiltSheet>();
  const sheets = exampleSteps().map(({ key, make }) => {
    const plan = make(built, makeId());
    const sheet = freeName(
      plan.title,
      [...built.values()].map((each) => each.sheet),
    );
    built.set(key, { sheet, plan });
    return realize(plan, sheet);
  });
  return { sheets, names: [], active: sheets[0]!.name };
}
