import { chain, good, type Outcome } from '../../photometry/outcome';
import { DRAW_METHOD, type Draw, drawSample, listFingerprint } from '../../procurement/lot/draw';
import { INSPECTION_LEVELS } from '../../procurement/lot/letter';
import { SEVERITIES } from '../../procurement/lot/master';
import { type Inspection, type SamplingPlan, samplingPlan } from '../../procurement/lot/plan';
import { protection } from '../../procurement/lot/protection';
import { serialText } from '../../procurement/lot/serials';
import { ACCEPTANCE_VERSION, acceptancePlan } from '../../sheets/acceptance';
import {
  type LineCells,
  type LinkedCell,
  type LinkedLine,
  lineOfBatch,
  lineOfRun,
  linkedCells,
} from '../../sheets/acceptance/links';
import { LARGEST_LISTED_LOT } from '../../sheets/acceptance/setup';
import { UNIT_COLUMNS } from '../../sheets/acceptance/units';
import { cellsOf } from '../../sheets/address';
import type { Book } from '../../sheets/book';
import { addressesOf, withFormulas } from '../../sheets/filled';
import type { FORMER_PLAN_NAMES } from '../../sheets/names/others';
import type { Plan } from '../../sheets/plan';
import type { Finding } from '../check/finding';
import { inWords } from '../number';
import { type SheetView, valueAt } from '../view';
import {
  cellNamed,
  cellsNamed,
  keptPlans,
  linesOf,
  majority,
  numberAt,
  placeInTable,
  tableArea,
  tableLines,
  textAt,
  withValues,
} from './cells';
import type { KindAudit, Origin, Unknown } from './kind';
import { linkedSheet } from './linkedrun';
import { linkedTo } from './links';
import { resultCells } from './results';

const kept = keptPlans();
const TABLE = UNIT_COLUMNS.flatMap(({ name }) => name ?? []);

interface PlannedFor {
  readonly lotSize: number;
  readonly aql: number;
}

/** Level and severity a sheet was built for: told by two headings and by their cells. */
function inspectionOf(view: SheetView): Inspection {
  const told: Inspection[] = [];
  for (const { value, formula } of Object.values(view.sheet.cells)) {
    const words = typeof value === 'string' && formula === undefined ? INSPECTION.exec(value) : null;
    const read = words && inspection(words[2]!, words[1]!);
    if (read) told.push(read);
  }
  const [level, severity] = ['inspectionlevel', 'severity'].map((name) => {
    const at = view.places.get(name)?.address;
    return at === undefined ? '' : textAt(view, at);
  });
  return majority([...told, inspection(level!, severity!) ?? []].flat()) ?? {};
}

function inspection(level: string, severity: string): Inspection | undefined {
  const [known, how] = [
    INSPECTION_LEVELS.find((each) => each === level),
    SEVERITIES.find((each) => each === severity),
  ];
  return known && how && { level: known, severity: how };
}

const INSPECTION = /\b(normal|tightened|reduced) inspection, (?:general|special) level (S-[1-4]|I{1,3})\b/;

/** The lot and AQL a sheet was built for: told by a heading, by a formula, and by list and AQL as they stand. */
function plannedFor(view: SheetView, lines: number): PlannedFor | undefined {
  const told: PlannedFor[] = [];
  for (const { value, formula } of Object.values(view.sheet.cells)) {
    const words = typeof value === 'string' && formula === undefined ? HEADING.exec(value) : null;
    const found = words ?? FORMULA.exec(formula?.replace(/[\s$]/g, '') ?? '');
    if (found) told.push({ lotSize: Number(found[1]), aql: Number(found[2]) });
  }
  const aqlAt = view.places.get('aql')?.address;
  const aql = aqlAt === undefined ? undefined : numberAt(view, aqlAt);
  return majority([...told, ...(aql === undefined ? [] : [{ lotSize: lines, aql }])]);
}

const HEADING = /\((\d{1,6}) units, AQL ([\d.]{1,8}), \d+ measured/;
const FORMULA = /^=IF\(AND\(LotSize=(\d{1,6}),Aql=([\d.]{1,8})\)/i;

/** The layout of a list that nothing was drawn from. */
function layout(lines: number, plan: SamplingPlan): Outcome<Plan> {
  return chain(protection(plan), (words) =>
    good(
      kept(`${lines} ${plan.lotSize} ${plan.aql} ${plan.level} ${plan.severity}`, () =>
        acceptancePlan(
          {
            lot: '',
            serials: Array.from({ length: lines }, (_, i) => `unit ${i + 1}`),
            aql: plan.aql,
            seed: '',
            drawnBy: '',
            drawnOn: '',
            counting: 'value',
            plan,
            draw: { seed: '', lotSize: lines, listFingerprint: '', drawn: [], method: DRAW_METHOD },
            words,
          },
          'expected',
        ),
      ),
    ),
  );
}

interface DrawnLine {
  readonly place?: number;
  readonly ticket?: string;
}

/** The recorded draw against the one that list and seed give. */
interface Drawn {
  readonly draw: Outcome<Draw>;
  /** What each line ought to bear; undefined where the record has to be taken as it stands. */
  readonly lines: readonly DrawnLine[] | undefined;
  /** Fingerprint of the list as it stands now. */
  readonly fingerprint: string;
  readonly isSameList: boolean;
  /** Lines whose record is not that of the draw. */
  readonly wrong: readonly number[];
}

function drawnOf(view: SheetView, layoutPlan: Plan, sampleSize: number): Drawn {
  const serials = cellsNamed(layoutPlan, 'Serials').map((at) => textAt(view, at));
  const draw = drawSample(serials, sampleSize, textAt(view, cellNamed(layoutPlan, 'Seed')));
  const fingerprint = listFingerprint(serials);
  const isSameList = textAt(view, cellNamed(layoutPlan, 'ListFingerprint')) === fingerprint;
  if (!draw.ok) return { draw, lines: undefined, fingerprint, isSameList, wrong: [] };
  const tickets = new Map(
    draw.value.drawn.map(({ serial, ticket }, i) => [serial, { place: i + 1, ticket }] as const),
  );
  const lines = serials.map((serial): DrawnLine => tickets.get(serialText(serial)) ?? {});
  const [places, recorded] = (['DrawPlaces', 'Tickets'] as const).map((name) => cellsNamed(layoutPlan, name));
  const wrong = lines.flatMap(({ place, ticket }, i) =>
    valueAt(view, places![i]!) === (place ?? null) && textAt(view, recorded![i]!) === (ticket ?? '')
      ? []
      : [i],
  );
  // Few wrong lines of an unchanged list were altered one by one; otherwise list or seed is another.
  const isAltered = isSameList && wrong.length * 2 <= Math.max(2, sampleSize);
  return { draw, lines: isAltered ? lines : undefined, fingerprint, isSameList, wrong };
}

function planOf(view: SheetView, book: Book | undefined): Plan | Unknown {
  const count = linesOf(view, TABLE);
  if (count < 1 || count > LARGEST_LISTED_LOT) return { why: `It has ${count} lines of units.` };
  const built = plannedFor(view, count);
  const sampling = built && samplingPlan(built.lotSize, built.aql, inspectionOf(view));
  if (!sampling?.ok) return { why: 'The lot and AQL it was built for cannot be read.' };
  const made = layout(count, sampling.value);
  if (!made.ok) return { why: 'What its plan protects cannot be said.' };
  const plan = made.value;
  const { lines } = drawnOf(view, plan, sampling.value.sampleSize);
  const [places, tickets] = [cellsNamed(plan, 'DrawPlaces'), cellsNamed(plan, 'Tickets')];
  const fingerprintAt = cellNamed(plan, 'ListFingerprint');
  const links = linkedLines(view, plan, book);
  if ('why' in links) return links;
  return withValues(withFormulas(plan, links), {
    [fingerprintAt]: textAt(view, fingerprintAt),
    ...Object.fromEntries(places.map((at, i) => [at, lines ? lines[i]!.place : numberAt(view, at)] as const)),
    ...Object.fromEntries(
      tickets.map((at, i) => [at, lines ? lines[i]!.ticket : textAt(view, at) || undefined] as const),
    ),
  });
}

/** The formulas of lines that are linked to run sheets, told by what most of a line's cells are linked to. */
function linkedLines(view: SheetView, plan: Plan, book: Book | undefined): LinkedCell[] | Unknown {
  const lines = new Map<number, (cells: LineCells) => LinkedLine>();
  for (const [i, at] of tableLines(plan, 'Serials', UNIT_COLUMNS).entries()) {
    const cells = LINKED.map(at);
    if (!cells.some((cell) => view.sheet.cells[cell]?.formula?.includes('!'))) continue;
    const run = linkedTo(view, cells, book);
    if ('why' in run) return run;
    const link = linkedSheet(run);
    lines.set(i, (own) => (run.identity?.kind === 'batch' ? lineOfBatch(link, own) : lineOfRun(link, own)));
  }
  return lines.size === 0 ? [] : linkedCells(addressesOf(plan), lines);
}

/** The table of plans of layouts before 6: rows by size of the lot, columns by AQL, normal inspection at level II. */
function formerPlans(view: SheetView): Finding[] {
  const cells = (name: (typeof FORMER_PLAN_NAMES)[number]) => {
    const range = view.places.get(name.toLowerCase())?.address;
    return range === undefined ? [] : cellsOf(range);
  };
  const [lots, aqls] = (['PlanLots', 'PlanAqls'] as const).map((name) =>
    cells(name).map((at) => valueAt(view, at)),
  );
  return (
    [
      ['SampleSizes', 'tableSize'],
      ['AcceptNumbers', 'accept'],
    ] as const
  ).flatMap(([name, of]) => {
    return cells(name).flatMap((at, i): Finding[] => {
      const [lot, aql] = [lots![Math.floor(i / aqls!.length)], aqls![i % aqls!.length]];
      const plan = samplingPlan(Number(lot), Number(aql));
      const [expected, found] = [plan.ok ? plan.value[of] : undefined, valueAt(view, at)];
      if (expected === undefined || expected === found) return [];
      return [
        {
          sheet: view.sheet.name,
          at,
          kind: 'constant',
          severity: 'error',
          message: `The table of plans is not that of the standard for lots from ${Number(lot)} at AQL ${Number(aql)}.`,
          expected: String(expected),
          found: inWords(found),
        },
      ];
    });
  });
}

const LINKED = ['white', 'whiteU', 'colour', 'colourU', 'source'];

/** What does not fit between list, seed and the recorded draw. */
function findings(view: SheetView, plan: Plan): Finding[] {
  const sampleSize = cellsNamed(plan, 'DrawPlaces').filter(
    (at) => plan.cells[at]!.value !== undefined,
  ).length;
  const { draw, lines, fingerprint, isSameList, wrong } = drawnOf(view, plan, sampleSize);
  const finding = (at: string, message: string, expected: string, found: string): Finding => ({
    sheet: view.sheet.name,
    at,
    kind: 'draw',
    severity: 'error',
    message,
    expected,
    found,
    remedy: 'read-again',
  });
  const fingerprintAt = cellNamed(plan, 'ListFingerprint');
  if (!isSameList) {
    const serials = cellsNamed(plan, 'Serials');
    const odd = wrong.slice(0, 5).map((i) => serials[i]);
    return [
      finding(
        fingerprintAt,
        `The list of serials is not the one that was drawn from, or its fingerprint was altered${odd.length > 0 ? `; look at ${odd.join(', ')}` : ''}.`,
        fingerprint,
        inWords(valueAt(view, fingerprintAt)),
      ),
    ];
  }
  const seedAt = cellNamed(plan, 'Seed');
  if (!draw.ok) {
    const why = draw.problems.map(({ message }) => message).join(' ');
    return [finding(seedAt, `The draw cannot be repeated. ${why}`, 'list and seed of the draw', why)];
  }
  if (lines || wrong.length === 0) return [];
  return [
    finding(
      seedAt,
      'List and seed do not give the recorded draw: the seed is not the one that was drawn with.',
      'the seed of the draw',
      inWords(valueAt(view, seedAt)),
    ),
  ];
}

/** What is typed of a unit; a linked figure is a formula and leads to its sheet by itself. */
function origin(view: SheetView, plan: Plan, at: string): Origin | undefined {
  const place = placeInTable(plan, 'Serials', UNIT_COLUMNS, at);
  if (!place) {
    const isOfTheDraw = OF_THE_DRAW.some((name) => cellNamed(plan, name) === at);
    return isOfTheDraw ? { source: 'set on this sheet when the sample was drawn' } : undefined;
  }
  const { line, column } = place;
  const [serial, remark] = [textAt(view, line('serial')), textAt(view, line('remark'))];
  if (column.key === 'serial')
    return { source: 'the list of the lot, whose fingerprint stands with the draw' };
  if (column.role !== 'input') return undefined;
  if (valueAt(view, at) === null) return { source: `not stated of “${serial}”` };
  return {
    source: `typed for “${serial}”; ${remark === '' ? 'the line does not say from where' : `“${remark}”`}`,
  };
}

const OF_THE_DRAW = ['Aql', 'LeastWhite', 'LeastColour', 'Counting', 'Seed', 'DrawnBy', 'DrawnOn'] as const;

export const ACCEPTANCE: KindAudit = {
  version: ACCEPTANCE_VERSION,
  plan: planOf,
  origin,
  lines: (plan) => tableArea(plan, 'Serials', UNIT_COLUMNS.length),
  results: (view, plan) => resultCells(view, plan, ['UnitDecision', 'CurveNonconforming']),
  findings,
  former: formerPlans,
};
