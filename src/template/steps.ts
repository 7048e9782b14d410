import { acceptancePlan } from '../sheets/acceptance';
import { lineOfRun, linkedCells } from '../sheets/acceptance/links';
import { type DrawnLot, drawLot, LARGEST_LISTED_LOT } from '../sheets/acceptance/setup';
import { ageingPlan } from '../sheets/ageing';
import { defaultAgeing } from '../sheets/ageing/setup';
import { batchPlan } from '../sheets/batch';
import { BATCH_UNITS } from '../sheets/batch/setup';
import { type BuiltSheet, comparedSheet, linkedSheet, listedSheet } from '../sheets/built';
import { certificatePlan } from '../sheets/certificate';
import { comparisonPlan, DEFAULT_COMPARISON } from '../sheets/comparison';
import { LEAST_RUNS, MOST_RUNS as MOST_COMPARED } from '../sheets/comparison/run';
import { addressesOf, withFormulas } from '../sheets/filled';
import { figureLink, linkTo } from '../sheets/link';
import { askedLinks, type Links, ratedLinks, roundedUp, withLinks } from '../sheets/linkfigures';
import { needPlan } from '../sheets/need';
import { offersPlan } from '../sheets/offers';
import { overviewPlan } from '../sheets/overview';
import type { Plan, SheetKind } from '../sheets/plan';
import { runPlan } from '../sheets/run';
import { spotPlan } from '../sheets/spot';
import { SPOT_UNITS } from '../sheets/spot/setup';
import type { Answers } from './answers';
import { MOST_RUNS } from './schema';
import { batchOf, needOf, roomsOf, runOf, type Unit, unitsOf, wordingOf } from './setups';
import type { Template } from './template';

/** Sheets built already, by the key of their step. */
type Built = ReadonlyMap<string, BuiltSheet>;

/** One sheet of a set, to be built after those before it. */
interface SetStep {
  readonly key: string;
  readonly kind: SheetKind;
  /** What it is, for somebody who waits. */
  readonly label: string;
  /** What it is linked to, in words; empty where it stands by itself. */
  readonly links: string;
  readonly make: (built: Built, id: string) => Plan;
}

export interface SheetSet {
  readonly steps: readonly SetStep[];
  /** What the template asks for and cannot be built, with the reason; whole sentences. */
  readonly left: readonly string[];
}

/** The sheets of a template, in the order they are built: each may link to those before it. */
export function sheetSet(template: Template, answers: Answers): SheetSet {
  const { sheets } = template;
  const left: string[] = [];
  const lot = lotOf(template, answers, left);
  const units = unitsFor(template, lot, left);
  const steps: SetStep[] = [];
  if (sheets.need) steps.push(needStep(template, left));
  if (sheets.offers) steps.push(offersStep(template));
  units.forEach((unit, i) => {
    steps.push(runStep(template, unit, i));
  });
  if (sheets.comparison) steps.push(...comparisonStep(units.length, left));
  if (sheets.spot) steps.push(...spotStep(template, units, answers, left));
  if (sheets.batch) steps.push(batchStep(template, answers));
  if (sheets.acceptance && lot) steps.push(acceptanceStep(template, lot, units));
  steps.push(...ageingSteps(template, units));
  if (sheets.certificates)
    units.forEach((unit, i) => {
      steps.push(certificateStep(unit, i));
    });
  if (sheets.overview)
    steps.push({
      key: 'overview',
      kind: 'overview',
      label: 'Overview of the workbook',
      links: 'linked to every sheet',
      make: (built, id) => overviewPlan({ sheets: [...built.values()].map(listedSheet), gone: [] }, id),
    });
  return { steps: steps.map((step) => labelled(step, answers.label)), left };
}

/** With a bid's own word in the names of its sheets. */
function labelled(step: SetStep, label: string): SetStep {
  if (label.trim() === '') return step;
  return {
    ...step,
    make: (built, id) => {
      const plan = step.make(built, id);
      return { ...plan, title: `${label.trim()} ${plan.title}` };
    },
  };
}

const many = (count: number, one: string, more: string) => `${count} ${count === 1 ? one : more}`;

/** The drawn lot, where the template needs one and everything for it is there. */
function lotOf(
  { sheets, sample, decision }: Template,
  answers: Answers,
  left: string[],
): DrawnLot | undefined {
  const { serials, seed } = answers;
  const wanted = [
    ...(sheets.acceptance ? ['Acceptance'] : []),
    ...(sheets.runs?.for === 'sample' ? ['Runs of the sample'] : []),
  ];
  if (wanted.length === 0) return undefined;
  const what = wanted.join(' and ');
  if (serials.length === 0 || seed.trim() === '') {
    left.push(
      `${what}: left out, since ${serials.length === 0 ? 'the serials of the lot are not given' : 'the seed of the draw is not given'}. Apply the template again, or draw the sample under New when the lot is there.`,
    );
    return undefined;
  }
  if (serials.length > LARGEST_LISTED_LOT) {
    left.push(
      `${what}: left out, since one sheet lists ${LARGEST_LISTED_LOT} units and there are ${serials.length}.`,
    );
    return undefined;
  }
  const drawn = drawLot({
    lot: answers.lot.trim(),
    serials,
    aql: sample.aql,
    level: sample.level,
    severity: sample.severity,
    seed: seed.trim(),
    drawnBy: answers.drawnBy.trim(),
    drawnOn: answers.today,
    counting: decision.counting,
  });
  if (drawn.ok) return drawn.value;
  left.push(`${what}: left out. ${drawn.problems.map(({ message }) => message).join(' ')}`);
  return undefined;
}

function unitsFor(template: Template, lot: DrawnLot | undefined, left: string[]): Unit[] {
  const units = unitsOf(template, lot?.draw.drawn.map(({ serial }) => serial) ?? []);
  if (units.length <= MOST_RUNS) return units;
  left.push(
    `Runs: ${MOST_RUNS} of ${units.length} are built; more belong into a batch, or are built one by one under New.`,
  );
  return units.slice(0, MOST_RUNS);
}

function needStep(template: Template, left: string[]): SetStep {
  const rooms = roomsOf(template);
  const wording = wordingOf(template);
  if (!wording)
    left.push('Words for the tender: left out, since no room has a need that can be computed yet.');
  else if (!wording.ok)
    left.push(`Words for the tender: left out. ${wording.problems.map(({ message }) => message).join(' ')}`);
  else {
    const open = rooms.filter((room) => needOf(room) === undefined);
    if (open.length > 0)
      left.push(
        `Words for the tender: their figures leave out ${open.length} of ${rooms.length} rooms whose need cannot be computed: ${open.map(({ room }) => `"${room}"`).join(', ')}.`,
      );
  }
  return {
    key: 'need',
    kind: 'need',
    label: rooms.length === 0 ? 'Need, rooms to be listed' : `Need of ${many(rooms.length, 'room', 'rooms')}`,
    links: '',
    make: (_, id) =>
      needPlan(
        {
          rooms,
          // A table without a line is none.
          spare: Math.max(template.sheets.need!.spare, rooms.length === 0 ? 1 : 0),
          ...(wording?.ok ? { wording: wording.value } : {}),
        },
        id,
      ),
  };
}

function offersStep(template: Template): SetStep {
  const { use } = template;
  const lines = template.sheets.offers!.lines;
  const hasNeed = template.sheets.need !== undefined;
  return {
    key: 'offers',
    kind: 'offers',
    label: `Offers, ${many(lines, 'line', 'lines')} to be filled in`,
    links: hasNeed ? 'asked figures linked to the need' : '',
    make: (built, id) => {
      const plan = offersPlan({ asked: {}, use, offers: [], spare: lines }, id);
      const need = built.get('need');
      if (!need) return plan;
      return withLinks(plan, askedLinks(linkedSheet(need)));
    },
  };
}

/** Rated figures that follow the chosen offer. */
function ratedBy(built: Built, rated: 'typed later' | 'chosen offer'): Links {
  const offers = built.get('offers');
  return offers && rated === 'chosen offer' ? ratedLinks(linkedSheet(offers)) : {};
}
const RATED_WORDS = 'rated figures linked to the chosen offer';

/** Key of the run of the nth unit, from 0. */
const runKey = (unit: number) => `run${unit}`;

function runStep(template: Template, unit: Unit, i: number): SetStep {
  const { rated } = template.sheets.runs!;
  return {
    key: runKey(i),
    kind: 'run',
    label: `Run of ${unit.label}`,
    links: rated === 'chosen offer' ? RATED_WORDS : '',
    make: (built, id) => {
      const plan = runPlan(runOf(template, unit), id);
      return withLinks({ ...plan, title: `Run ${unit.label}` }, ratedBy(built, rated));
    },
  };
}

/** The runs of the set that are there. */
function runsOf(built: Built): BuiltSheet[] {
  return [...built.values()].filter(({ plan }) => plan.kind === 'run');
}

function comparisonStep(runs: number, left: string[]): SetStep[] {
  if (runs < LEAST_RUNS) {
    left.push(`Comparison: left out, since it takes at least ${LEAST_RUNS} runs.`);
    return [];
  }
  if (runs > MOST_COMPARED)
    left.push(
      `Comparison: takes the first ${MOST_COMPARED} of ${runs} runs; more do not fit beside each other.`,
    );
  return [
    {
      key: 'comparison',
      kind: 'comparison',
      label: `Comparison of ${Math.min(runs, MOST_COMPARED)} runs`,
      links: 'linked to the runs',
      make: (built, id) => {
        // One meter for all: it is the template's. Images are told apart by their rooms.
        const compared = runsOf(built)
          .slice(0, MOST_COMPARED)
          .map((run, i) => comparedSheet(run, 1, isOneImage(built) ? 1 : i + 1));
        const plan = comparisonPlan(compared, DEFAULT_COMPARISON, id);
        if (!plan.ok) throw new Error(plan.problems.map(({ message }) => message).join(' '));
        return plan.value;
      },
    },
  ];
}

/** Whether the runs of a set were planned with one and the same image. */
function isOneImage(built: Built): boolean {
  const sizes = runsOf(built).map(({ plan }) => {
    const at = addressesOf(plan);
    return ['ImageLength', 'AspectAcross', 'AspectDown', 'SideTop', 'Place']
      .map((name) => (at[name] ? plan.cells[at[name]]?.value : ''))
      .join('|');
  });
  return new Set(sizes).size === 1;
}

/** Longest name of a unit on a spot check. */
const NAME_MAX = 80;

function spotStep(template: Template, units: readonly Unit[], { today }: Answers, left: string[]): SetStep[] {
  const names = [...new Set(units.map(({ label }) => label.slice(0, NAME_MAX)))];
  if (names.length < SPOT_UNITS.min) {
    left.push(
      `Spot check: left out, since it takes at least ${SPOT_UNITS.min} units with names of their own.`,
    );
    return [];
  }
  if (names.length < units.length)
    left.push(
      `Spot check: takes ${names.length} of ${units.length} units, since it tells units apart by projector and mode and some are called alike.`,
    );
  if (names.length > SPOT_UNITS.max)
    left.push(`Spot check: takes the first ${SPOT_UNITS.max} of ${names.length} units.`);
  const { reference, ambient } = template.sheets.spot!;
  return [
    {
      key: 'spot',
      kind: 'spot',
      label: `Spot check of ${Math.min(names.length, SPOT_UNITS.max)} units`,
      links: '',
      make: (_, id) =>
        spotPlan(
          {
            title: template.title.slice(0, 60),
            units: names.slice(0, SPOT_UNITS.max),
            reference,
            ambient,
            place: '',
            measuredBy: '',
            date: today,
            meter: template.meter,
          },
          id,
        ),
    },
  ];
}

function batchStep(template: Template, { serials, lot }: Answers): SetStep {
  const own = template.sheets.batch!;
  const listed = serials.slice(0, BATCH_UNITS.max);
  const setup = batchOf(template, own, listed, lot.trim());
  return {
    key: 'batch',
    kind: 'batch',
    label:
      listed.length === 0
        ? `Batch, ${many(setup.lines, 'line', 'lines')} to be filled in`
        : `Batch of ${many(listed.length, 'unit', 'units')}`,
    links: own.rated === 'chosen offer' ? RATED_WORDS : '',
    make: (built, id) => withLinks(batchPlan(setup, id), ratedBy(built, own.rated)),
  };
}

function acceptanceStep(template: Template, lot: DrawnLot, units: readonly Unit[]): SetStep {
  const { least } = template.sheets.acceptance!;
  const { leastPart } = template.decision;
  return {
    key: 'acceptance',
    kind: 'acceptance',
    label: `Acceptance of ${many(lot.serials.length, 'unit', 'units')}, ${lot.plan.sampleSize} drawn`,
    links: `limits linked to the ${least}${units.some(({ serial }) => serial) ? ', results to the runs by serial number' : ''}`,
    make: (built, id) => {
      const source = built.get(least === 'need' ? 'need' : 'offers')!;
      const names = least === 'need' ? ['LargestWhite', 'LargestColour'] : ['ChosenWhite', 'ChosenColour'];
      const of = (ref: string) => `${leastPart}*${least === 'need' ? roundedUp(ref) : ref}`;
      const plan = withLinks(acceptancePlan(lot, id), {
        LeastWhite: figureLink(linkedSheet(source), names[0]!, { of }),
        ...(template.measuring.colour === 'none'
          ? {}
          : { LeastColour: figureLink(linkedSheet(source), names[1]!, { of }) }),
      });
      const lines = new Map(
        units.flatMap(({ serial }, i) => {
          const run = built.get(runKey(i));
          const line = lot.serials.indexOf(serial);
          if (!run || line < 0) return [];
          const source = linkedSheet(run);
          return [[line, (at: Parameters<typeof lineOfRun>[1]) => lineOfRun(source, at)] as const];
        }),
      );
      return withFormulas(plan, linkedCells(addressesOf(plan), lines));
    },
  };
}

function ageingSteps(template: Template, units: readonly Unit[]): SetStep[] {
  const { ageing } = template.sheets;
  if (ageing === 'none') return [];
  const those: readonly Partial<Unit>[] = ageing === 'each unit' ? units : [{}];
  const { hoursPerYear } = template.use;
  return those.map(({ projector = '', serial = '', mode = '', room, label = '' }, i) => ({
    key: `ageing${i}`,
    kind: 'ageing',
    label: label ? `Ageing of ${label}` : 'Ageing of a unit',
    links: room !== undefined && template.sheets.need ? 'light needed linked to the need of its room' : '',
    make: (built: Built, id: string) => {
      const plan = ageingPlan(
        {
          ...defaultAgeing(projector),
          serial,
          mode,
          ...(hoursPerYear === undefined ? {} : { hoursPerYear }),
          level: template.decision.level,
        },
        id,
      );
      const need = built.get('need');
      const titled = label ? { ...plan, title: `Ageing ${label}` } : plan;
      if (!need || room === undefined) return titled;
      const reserve = linkTo(linkedSheet(need), 'RoomAgeing', room)!;
      return withLinks(titled, {
        // What the room still needs at the end of the planned use, in the rated mode.
        NeededOutput: figureLink(linkedSheet(need), 'RoomWhite', {
          row: room,
          of: (ref) => `${ref}*${reserve}`,
        }),
      });
    },
  }));
}

function certificateStep(unit: Unit, i: number): SetStep {
  return {
    key: `certificate${i}`,
    kind: 'certificate',
    label: `Certificate of ${unit.label}`,
    links: 'linked to its run',
    make: (built, id) =>
      certificatePlan({ run: linkedSheet(built.get(runKey(i))!), number: '', issuedBy: '' }, id),
  };
}
