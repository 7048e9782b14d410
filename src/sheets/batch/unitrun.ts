import { isOverRange } from '../../photometry/overrange';
import { CENTRE } from '../../photometry/points';
import type { RawCell } from '../../photometry/reading';
import { type BatchField, fieldsOf, isCentre, pointsOf } from '../../procurement/batch/columns';
import { cellsOf } from '../address';
import type { CellName } from '../names/all';
import { every } from '../names/every';
import { FIELDS, REPEATS } from '../names/shared';
import { stemOf } from '../names/stem';
import { isSameNumber } from '../phrases/agree';
import type { Plan, PlanCell } from '../plan';
import { runPlan } from '../run';
import { sensorFactor } from '../run/causes';
import type { NamedCells } from '../run/input';
import { NOTES } from '../run/notes';
import type { RunSetup } from '../runsetup';
import type { BatchSetup, BatchUnit } from './setup';
import { asRun } from './setupblock';

/** A line of a batch with its readings. */
interface UnitRow extends BatchUnit {
  readonly range: RawCell;
  /** As on the display; what is missing is `null`. */
  readonly readings: readonly RawCell[];
  /** Ambient light of this line, as on the display at range factor 1; where it is read line by line. */
  readonly ambient?: RawCell;
}

/** The ambient reading that all lines share. */
export interface SharedAmbient {
  readonly reading: RawCell;
  readonly range: RawCell;
}

/** The set-up of a full run of one unit of a batch. */
function unitRunSetup(setup: BatchSetup, row: UnitRow): RunSetup {
  const run = asRun(setup);
  return {
    ...run,
    serial: row.serial,
    place: row.place ?? '',
    date: row.date ?? '',
    meter: { ...run.meter, range: positive(row.range) ?? run.meter.range },
  };
}

/**
 * The run sheet of one unit of a batch, with the readings that its line has: nine points a field, or the centre
 * alone. What the line lacks is left to be measured.
 */
export function unitRunPlan(
  setup: BatchSetup,
  row: UnitRow,
  shared: SharedAmbient | undefined,
  from: string,
  id: string,
): Plan {
  const plan = runPlan(unitRunSetup(setup, row), id);
  const points = pointsOf(setup.readings);
  const typed: Record<string, readonly RawCell[]> = {};
  const isRead = row.readings.some((reading) => typeof reading === 'number');
  fieldsOf(setup.readings).forEach((field, f) => {
    const own = row.readings.slice(f * points, (f + 1) * points);
    typed[`${stemOf(field)}Readings`] = isCentre(setup.readings)
      ? Array.from({ length: 9 }, (_, i) => (i === CENTRE ? own[0] : null))
      : own;
    // Of what was read already, the factor the meter starts with would be a guess.
    if (isRead && positive(row.range) === undefined) typed[`${stemOf(field)}Range`] = [];
  });
  if (setup.ambient === 'by row') {
    typed.AmbientReadings = [row.ambient];
    typed.AmbientRange = [1];
  }
  if (setup.ambient === 'once' && shared) {
    typed.AmbientReadings = [shared.reading];
    typed.AmbientRange = [positive(shared.range)];
  }
  const hours = row.hours === undefined ? '' : ` Run time ${row.hours} h.`;
  typed[NOTES] = [`Opened from “${from}”, unit ${row.serial || 'without a serial number'}.${hours}`];
  return withValues(plan, typed);
}

/** Puts values into the cells behind names of a plan; a cell whose value is missing is left empty. */
function withValues(plan: Plan, typed: Readonly<Record<string, readonly RawCell[]>>): Plan {
  const cells: Record<string, PlanCell> = { ...plan.cells };
  for (const [name, values] of Object.entries(typed)) {
    const range = plan.names.find((one) => one.name === name)?.range;
    if (range === undefined) continue;
    cellsOf(range).forEach((at, i) => {
      const value = values[i];
      const { value: _, ...empty } = cells[at]!;
      const isThere =
        typeof value === 'number' ||
        typeof value === 'boolean' ||
        (typeof value === 'string' && value !== '');
      cells[at] = isThere ? { ...empty, value } : empty;
    });
  }
  return { ...plan, cells };
}

function positive(cell: RawCell): number | undefined {
  return typeof cell === 'number' && cell > 0 ? cell : undefined;
}

/** What goes from a run sheet into a line of a batch. Cells that are `null` stay as they are. */
export interface TakenRun {
  readonly range: number;
  readonly readings: readonly (number | string | null)[];
  /** On the display at range factor 1, where the batch reads it line by line. */
  readonly ambient?: number;
  readonly place?: string;
  /** Day number of the spreadsheet. */
  readonly date?: number;
  /** How many readings came, and how many the run lacks. */
  readonly taken: number;
  readonly lacking: number;
  /** What a reader must know of how they were taken. */
  readonly remarks: readonly string[];
}

/** Names of a run that are read for that. */
export const RUN_NAMES = [
  'SerialNumber',
  'Place',
  'MeasuredOn',
  'MeterUnit',
  'LuxPerUnit',
  'ImageArea',
  'CalibrationFactor',
  'ThrowDistance',
  'SensorHeight',
  'AmbientMean',
  ...every(FIELDS, ['Readings', ...REPEATS, 'Range', 'Spectral']),
  'WhiteLightOutputPlain',
  'WhiteExpandedPlain',
  'ColourLightOutputPlain',
  'ColourExpandedPlain',
] as const;

/**
 * What a run sheet has for a line of a batch; or why its readings would mean something else there: another meter
 * factor, another image, another unit.
 *
 * @param batch the batch's `LuxPerUnit`, `ImageArea`, `DisplayFactors` and `AmbientLux` beside its set-up's names
 * @param i the line, counted from 0
 */
export function takeRun(
  run: NamedCells,
  batch: NamedCells,
  setup: BatchSetup,
  i: number,
): TakenRun | { readonly problems: readonly string[] } {
  const problems = differences(run, batch, setup, i);
  if (problems.length > 0) return { problems };
  const points = pointsOf(setup.readings);
  const fields = fieldsOf(setup.readings).map((field) => fieldOf(run, field, points));
  const used = fields.flatMap(({ readings, ranges }) =>
    ranges.filter((range, k) => range > 0 && typeof readings[k] === 'number'),
  );
  const isOneRange = used.every((range) => range === used[0]);
  const range = isOneRange ? (used[0] ?? 1) : 1;
  const readings = fields.flatMap(({ readings: own, ranges }) =>
    own.map((reading, k) => {
      if (isOverRange(reading)) return 'over';
      // Without a range factor nobody knows how bright it was.
      if (typeof reading !== 'number' || !(ranges[k]! > 0)) return null;
      // Fifteen digits, as cells keep them.
      return isOneRange ? reading : Number((reading * ranges[k]!).toPrecision(15));
    }),
  );
  const ambient = ambientFor(run, batch, setup, i);
  const [place, date] = [one(run, 'Place'), one(run, 'MeasuredOn')];
  return {
    range,
    readings,
    ...(ambient.reading === undefined ? {} : { ambient: ambient.reading }),
    ...(typeof place === 'string' && place !== '' ? { place } : {}),
    ...(typeof date === 'number' ? { date } : {}),
    taken: readings.filter((reading) => reading !== null).length,
    lacking: readings.filter((reading) => reading === null).length,
    remarks: [
      ...(isOneRange ? [] : ['readings of several ranges, brought to range factor 1']),
      ...(fields.some(({ isMean }) => isMean) ? ['means of repeated readings'] : []),
      ...ambient.remarks,
      ...resultsOf(run),
    ],
  };
}

const one = (cells: NamedCells, name: CellName): RawCell => cells[name]?.values[0]?.[0];
const numberAt = (cells: NamedCells, name: CellName): number | undefined => {
  const value = one(cells, name);
  return typeof value === 'number' ? value : undefined;
};

const placeFactor = (cells: NamedCells): number =>
  sensorFactor({
    throwDistance: numberAt(cells, 'ThrowDistance'),
    sensorHeight: numberAt(cells, 'SensorHeight'),
  });

function differences(run: NamedCells, batch: NamedCells, setup: BatchSetup, i: number): string[] {
  const problems: string[] = [];
  const [serial, listed] = [String(one(run, 'SerialNumber') ?? '').trim(), setup.units[i]?.serial ?? ''];
  if (serial !== listed) {
    problems.push(
      `The run is of serial number ${serial || '(none)'}, the line of ${listed || '(none)'}: set the right one first.`,
    );
  }
  if (one(run, 'MeterUnit') !== one(batch, 'MeterUnit'))
    problems.push('The meter’s unit of the run is not that of the batch.');
  const area = [numberAt(run, 'ImageArea'), numberAt(batch, 'ImageArea')] as const;
  if (
    !isCentre(setup.readings) &&
    (area[0] === undefined || area[1] === undefined || !isSameNumber(area[0], area[1]))
  )
    problems.push('The run was measured at another image size than the batch.');
  const places = [run, batch].map(placeFactor);
  if (!isCentre(setup.readings) && !isSameNumber(places[0]!, places[1]!))
    problems.push('The run corrects for the place of the sensor otherwise than the batch.');
  const factors = batch.DisplayFactors?.values.flat() ?? [];
  fieldsOf(setup.readings).forEach((field, f) => {
    const stem = stemOf(field);
    if (!run[`${stem}Readings`]) {
      problems.push(`The run has no ${field} field.`);
      return;
    }
    const correction = (numberAt(run, 'CalibrationFactor') ?? 0) * (numberAt(run, `${stem}Spectral`) ?? 0);
    const own = (numberAt(run, 'LuxPerUnit') ?? 0) * correction;
    const factor = factors[f];
    if (
      typeof factor !== 'number' ||
      !isSameNumber(own * (isCentre(setup.readings) ? 1 : places[1]!), factor)
    )
      problems.push(`Calibration or correction for ${field} is not that of the batch.`);
  });
  return problems;
}

/** Readings of a field of a run as its results use them: the means where points were read several times. */
function fieldOf(run: NamedCells, field: BatchField, points: number) {
  const stem = stemOf(field);
  const [first = [], ...repeats] = ([`${stem}Readings`, ...every([stem], REPEATS)] as const).flatMap(
    (name) => (run[name] ? [run[name].values.flat()] : []),
  );
  const isMean = repeats.length > 0;
  const all = isMean ? first.map((one, i) => meanOf([one, ...repeats.map((list) => list[i])])) : first;
  const pick = <T>(values: readonly T[]) => (points === 1 ? values.slice(CENTRE, CENTRE + 1) : values);
  return {
    isMean,
    readings: pick(all),
    /** 0 where there is none. */
    ranges: pick(run[`${stem}Range`]?.values.flat() ?? []).map((range) => positive(range) ?? 0),
  };
}

/** Of the readings of one point; none where one is missing. Fifteen digits, as cells keep them. */
function meanOf(readings: readonly RawCell[]): RawCell {
  if (!readings.every((reading) => typeof reading === 'number')) return null;
  return Number((readings.reduce((sum, reading) => sum + reading, 0) / readings.length).toPrecision(15));
}

/** Ambient light for the line: its own reading, or a remark where the batch takes off another one. */
function ambientFor(run: NamedCells, batch: NamedCells, setup: BatchSetup, i: number) {
  const own = numberAt(run, 'AmbientMean');
  if (setup.ambient === 'by row') {
    const factor = (numberAt(batch, 'LuxPerUnit') ?? 1) * (numberAt(batch, 'CalibrationFactor') ?? 1);
    return own === undefined
      ? { reading: undefined, remarks: ['the run has no ambient reading'] }
      : { reading: Number((own / factor).toPrecision(15)), remarks: [] };
  }
  const there = numberAt(batch, 'AmbientLux');
  const isOther = own !== undefined && there !== undefined && !isSameNumber(own, there) && own !== there;
  return {
    reading: undefined,
    remarks: isOther
      ? [
          `ambient light in the run ${short(own)} lx, in the batch ${short(there)} lx: line ${i + 1} takes off the latter`,
        ]
      : [],
  };
}

/** The run's own results, for the record. */
function resultsOf(run: NamedCells): string[] {
  return (['White', 'Colour'] as const).flatMap((id) => {
    const value = numberAt(run, `${id}LightOutputPlain`);
    const expanded = numberAt(run, `${id}ExpandedPlain`);
    if (value === undefined) return [];
    return [
      `the run’s ${id.toLowerCase()} ${short(value)} lm${expanded === undefined ? '' : ` ± ${short(expanded)} lm`}`,
    ];
  });
}

const short = (value: number) => String(Number(value.toPrecision(5)));
