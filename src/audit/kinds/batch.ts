import { BATCH_KEYS, BATCH_READINGS, type BatchReadings, isCentre } from '../../procurement/batch/columns';
import { addressOf, cellsOf, rectOf } from '../../sheets/address';
import { BATCH_VERSION, batchPlan } from '../../sheets/batch';
import { RESULT_NAMES } from '../../sheets/batch/names';
import { BATCH_UNITS, type BatchAmbient, defaultBatchSetup } from '../../sheets/batch/setup';
import { isoDay } from '../../sheets/days';
import type { CellName } from '../../sheets/names/all';
import { every } from '../../sheets/names/every';
import { FIELDS } from '../../sheets/names/shared';
import type { Plan } from '../../sheets/plan';
import { defaultRunSetup } from '../../sheets/runsetup';
import { SIDES } from '../../sheets/setup/read';
import { checkImage } from '../check/plausible';
import { type SheetView, valueAt } from '../view';
import { cellNamed, cellsNamed, keptPlans, linesOf, remembered, textAt } from './cells';
import type { KindAudit, Origin, ResultCell, Unknown } from './kind';
import { checkLoneOnes } from './loneones';
import { resultCells } from './results';
import { originOfReading } from './typed';

const kept = keptPlans();
const TABLE = [
  ...([
    'Serials',
    'UnitPlaces',
    'UnitHours',
    'UnitDates',
    'UnitRemark',
    'RangeFactors',
    'Agreement',
  ] as const),
  ...(['Readings', 'FunctionTable', ...every(FIELDS, ['Readings']), ...RESULT_NAMES] as const),
] as const;

/** What of a batch decides its layout. */
interface BatchShape {
  readonly readings: BatchReadings;
  readonly ambient: BatchAmbient;
  readonly shape: 'rectangle' | 'four sides';
  readonly lines: number;
}

/** What the layout rests on, each told by several names, so that one lost name does not make another sheet of it. */
const shapeOf = remembered((view): BatchShape => {
  const has = (...names: CellName[]) => names.some((name) => view.places.has(name.toLowerCase()));
  const isCentre = has('ReferenceUnit', 'WhiteReference', 'ReferenceTerms');
  const isColoured = has('ColourStatedU', 'RedReadings', 'GreenReadings', 'BlueReadings');
  return {
    readings: BATCH_READINGS[(isCentre ? 2 : 0) + (isColoured ? 1 : 0)]!,
    ambient: ambientOf(view),
    shape: has('SideTop', 'SideRight', 'SideBottom', 'SideLeft') ? 'four sides' : 'rectangle',
    lines: linesOf(view, TABLE, BATCH_UNITS.max + 1),
  };
});

/** Read row by row it stands in the table; read once it has a range factor of its own, below. */
function ambientOf({ places }: SheetView): BatchAmbient {
  const row = (name: CellName) => {
    const address = places.get(name.toLowerCase())?.address;
    return address === undefined ? undefined : rectOf(address).row + 1;
  };
  const [readings, lux] = [row('AmbientReadings'), row('AmbientLux')];
  const first = row('Serials') ?? row('FunctionTable');
  if (first !== undefined && (readings === first || lux === first)) return 'by row';
  return readings !== undefined || row('AmbientRange') !== undefined ? 'once' : 'none';
}

function planOf(view: SheetView): Plan | Unknown {
  const { readings, ambient, shape, lines } = shapeOf(view);
  if (lines < BATCH_UNITS.min || lines > BATCH_UNITS.max) return { why: `It has ${lines} lines of units.` };
  return kept(JSON.stringify([readings, ambient, shape, lines]), () =>
    batchPlan(
      {
        ...defaultBatchSetup(),
        image: shape === 'rectangle' ? defaultRunSetup().image : SIDES,
        readings,
        ambient,
        lines,
      },
      'expected',
    ),
  );
}

/** A column of results: the plain formulas, the function's cells beside the table, and what they are. */
interface Column {
  readonly name: CellName | '';
  readonly label: string;
  readonly unit: string;
  readonly plain: readonly string[];
  readonly own: readonly string[];
}

function columnsOf(plan: Plan, { readings }: BatchShape): Column[] {
  const keys = BATCH_KEYS[readings];
  const table = cellsNamed(plan, 'FunctionTable');
  const lines = table.length / keys.length;
  const first = rectOf(cellNamed(plan, 'UnitState'));
  return keys.map((_, i) => {
    const range = addressOf({ ...first, column: first.column + i, rows: lines, columns: 1 });
    const { name = '', comment = '' } = plan.names.find((each) => sameArea(each.range, range)) ?? {};
    const [, label = comment, unit = ''] = /^(.*?), (lm(?:, estimate)?)$/.exec(comment) ?? [];
    return {
      name,
      label: WORDS.has(name) ? comment : label,
      unit: WORDS.has(name) ? '' : unit,
      plain: cellsOf(range),
      own: table.filter((__, at) => at % keys.length === i),
    };
  });
}

const WORDS: ReadonlySet<string> = new Set(['UnitState', 'WhiteDecision', 'ColourDecision', 'UnitDecision']);

function sameArea(a: string, b: string): boolean {
  return addressOf(rectOf(a)) === addressOf(rectOf(b));
}

function results(view: SheetView, plan: Plan): ResultCell[] {
  const shape = shapeOf(view);
  const columns = columnsOf(plan, shape);
  const serials = cellsNamed(plan, 'Serials');
  const found: ResultCell[] = [];
  for (let i = 0; i < shape.lines; i++) {
    const serial = valueAt(view, serials[i]!);
    const isBegun = [serial, valueAt(view, columns[0]!.plain[i]!)].some(
      (value) => value !== null && value !== '',
    );
    if (!isBegun) continue;
    for (const { name, label, unit, plain, own } of columns) {
      found.push({
        name: `${name}[${i + 1}]`,
        label: `${label}, ${typeof serial === 'string' || typeof serial === 'number' ? serial : `line ${i + 1}`}`,
        unit,
        at: own[i]!,
        twinAt: plain[i]!,
      });
    }
  }
  const table = new Set(columns.flatMap(({ own }) => own));
  return [...found, ...resultCells(view, plan).filter(({ at }) => !table.has(at))];
}

/** A line says when it was read, and in words where its readings are from. */
function origin(view: SheetView, plan: Plan, at: string): Origin | undefined {
  const line = rectOf(at).row - rectOf(cellNamed(plan, 'Serials')).row;
  const ofLine = (name: CellName) => cellsNamed(plan, name)[line] ?? '';
  const found = originOfReading(view, plan, at, isoDay(valueAt(view, ofLine('UnitDates'))));
  const remark = textAt(view, ofLine('UnitRemark'));
  return found && remark !== '' ? { ...found, source: `${found.source}; “${remark}”` } : found;
}

export const BATCH: KindAudit = {
  version: BATCH_VERSION,
  plan: planOf,
  origin,
  results,
  findings: (view, plan) => [
    ...checkLoneOnes(view, plan),
    // At the centre alone nobody needs the image.
    ...(isCentre(shapeOf(view).readings) ? [] : checkImage(view)),
  ],
};
