import * as v from 'valibot';
import { partsOf, textNames, textOf } from '../audit/seal/constant';
import type { DefinedName } from '../sheets/book';
import type { RunSetup } from '../sheets/runsetup';
import { fields, list } from './fields';
import { METER } from './schema';
import { maybe, usually } from './setupfield';
import { MOST_CHARACTERS, shapeProblem } from './shape';

/** Workbook-scoped, hidden: the list of meters, in as many parts as it needs. */
const KEPT = 'LightMeters';
const VERSION = 1;
/** More than any house has. */
export const MOST_METERS = 100;

/** What its data sheet, its certificate and its check say of it. */
const DATA_SHEET = {
  meterClass: usually('uncertainty.meterClass'),
  ofReading: maybe('uncertainty.ofReading'),
  statement: usually('uncertainty.statement'),
  digits: maybe('uncertainty.digits'),
  f1: maybe('uncertainty.f1'),
  f2: maybe('uncertainty.f2'),
  linearity: maybe('uncertainty.linearity'),
  repeatability: maybe('uncertainty.repeatability'),
  repeatabilityReadings: maybe('uncertainty.repeatabilityReadings'),
  placing: maybe('uncertainty.placing'),
  meterCheck: maybe('uncertainty.meterCheck'),
  sensorHeight: maybe('uncertainty.sensorHeight'),
};
export const DATA_SHEET_KEYS = Object.keys(DATA_SHEET) as (keyof typeof DATA_SHEET)[];
const OF_METER = fields({ meter: METER, uncertainty: fields(DATA_SHEET) });
const METERS = fields({ version: v.literal(VERSION), meters: list(OF_METER, MOST_METERS) });

/** One meter of the list: its part of a run's set-up. Its name tells it from the others. */
export type KeptMeter = v.InferOutput<typeof OF_METER>;

/** The meters a workbook keeps, by name; a workbook may be of another hand, so that nothing of it is trusted. */
export type Meters =
  | { readonly ok: true; readonly meters: readonly KeptMeter[] }
  | { readonly ok: false; readonly problem: string };

const DAMAGED = 'What the workbook keeps of its meters is damaged, or of a newer program.';

export function keptMeters(names: readonly DefinedName[]): Meters {
  if (partsOf(KEPT, names).length === 0) return { ok: true, meters: [] };
  const kept = textOf(KEPT, names);
  if (kept === undefined || kept.length > MOST_CHARACTERS) return { ok: false, problem: DAMAGED };
  try {
    const json: unknown = JSON.parse(kept);
    if (shapeProblem(json)) return { ok: false, problem: DAMAGED };
    const read = v.safeParse(METERS, json);
    if (!read.success || new Set(read.output.meters.map(nameKey)).size < read.output.meters.length)
      return { ok: false, problem: DAMAGED };
    const meters = [...read.output.meters].sort((a, b) => (nameKey(a) < nameKey(b) ? -1 : 1));
    return { ok: true, meters };
  } catch {
    return { ok: false, problem: DAMAGED };
  }
}

/** How a meter's name is told from others: without regard to case. */
const nameKey = ({ meter }: KeptMeter) => meter.name.toLowerCase();

/** The meter of a set-up, as it is kept; undefined where it has no name. */
export function meterOf({ meter, uncertainty }: RunSetup): KeptMeter | undefined {
  const own = Object.fromEntries(DATA_SHEET_KEYS.map((key) => [key, uncertainty[key]]));
  const read = v.safeParse(OF_METER, JSON.parse(JSON.stringify({ meter, uncertainty: own })));
  return read.success && read.output.meter.name !== '' ? read.output : undefined;
}

/** The list with a meter in it, in the place of the one of its name. @throws if there are too many */
export function withMeter(meters: readonly KeptMeter[], meter: KeptMeter): readonly KeptMeter[] {
  const others = meters.filter((each) => nameKey(each) !== nameKey(meter));
  if (others.length >= MOST_METERS) throw new Error(`A workbook keeps ${MOST_METERS} meters.`);
  return [...others, meter];
}

/** The names that keep a list, and those of the list before that go. */
export function keepMeters(
  meters: readonly KeptMeter[],
  names: readonly DefinedName[],
): { readonly remove: readonly string[]; readonly set: readonly DefinedName[] } {
  const set = meters.length === 0 ? [] : textNames(KEPT, JSON.stringify({ version: VERSION, meters }));
  const kept = new Set(set.map(({ name }) => name.toLowerCase()));
  return { remove: partsOf(KEPT, names).filter((name) => !kept.has(name.toLowerCase())), set };
}

/** Meters whose calibration is due on a day (ISO), or was. */
export function dueMeters(meters: readonly KeptMeter[], today: string): readonly KeptMeter[] {
  return meters.filter(({ meter: { dueOn } }) => dueOn !== undefined && dueOn !== '' && dueOn <= today);
}
