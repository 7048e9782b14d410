import { FIELDS, findings } from '../../functions/findings';
import { AMBIENT_LIMIT, DRIFT_LIMIT } from '../../photometry/drift';
import { NOTHING } from '../../photometry/plausibility';
import { mean } from '../../photometry/reading';
import type { CellName } from '../../sheets/names/all';
import { stemOf } from '../../sheets/names/stem';
import type { RunSetup } from '../../sheets/runsetup';
import { gridOf, type SheetView } from '../view';
import type { Finding } from './finding';
import { typedAmbient, typedCentres, typedWhite } from './typedlight';

/** What is odd about the readings though every rule lets them pass, and lengths that point to a wrong unit. */
export function checkPlausible(view: SheetView, setup: RunSetup): Finding[] {
  return [...grids(view, setup), ...whole(view, setup), ...lengths(view)];
}

const EMPTY = 'no readings yet';

function grids(view: SheetView, setup: RunSetup): Finding[] {
  const { meter } = setup;
  const ambient = typedAmbient(view, setup);
  return FIELDS.flatMap((field): Finding[] => {
    const stem = stemOf(field);
    const place = view.places.get(`${stem}readings`.toLowerCase());
    const raw = gridOf(view, `${stem}Readings`);
    if (!place || raw.length !== 3 || raw[0]!.length !== 3) return [];
    const ranges = gridOf(view, `${stem}Range`).flat();
    const colour = field === 'black' || field === 'ambient' ? 'white' : field;
    const remark = findings(field, raw, meter.digit, {
      unit: meter.unit,
      range: Array.from({ length: 9 }, (_, i) => (typeof ranges[i] === 'number' ? Number(ranges[i]) : 1)),
      correction: meter.calibration * (field === 'ambient' ? 1 : meter.corrections[colour]),
      ambient: ambient.ok ? ambient.value : 0,
    });
    if (remark === NOTHING || remark === EMPTY) return [];
    return [
      {
        sheet: view.sheet.name,
        at: place.address,
        kind: 'reading',
        severity: 'note',
        message: `${stem}: ${remark}`,
        expected: NOTHING,
        found: remark,
        remedy: 'read-again',
      },
    ];
  });
}

function whole(view: SheetView, setup: RunSetup): Finding[] {
  const [centres, ambient, white] = [typedCentres(view), typedAmbient(view, setup), typedWhite(view, setup)];
  const found: Finding[] = [];
  const percent = (part: number) => `${(100 * part).toFixed(1)} %`;
  const note = (name: CellName, message: string, expected: string, came: string) => {
    const at = view.places.get(name.toLowerCase())?.address;
    found.push({
      sheet: view.sheet.name,
      ...(at === undefined ? {} : { at }),
      kind: 'reading',
      severity: 'note',
      message,
      expected,
      found: came,
      remedy: 'read-again',
    });
  };
  if (centres.ok) {
    const [first, last] = centres.value;
    const drift = last / first - 1;
    if (Math.abs(drift) > DRIFT_LIMIT) {
      note(
        'LastReading',
        'The centre drifted during the run: repeat it after a longer warm-up.',
        `at most ${percent(DRIFT_LIMIT)}`,
        percent(drift),
      );
    }
  }
  if (ambient.ok && white.ok) {
    const part = mean(ambient.value) / mean(white.value);
    if (part > AMBIENT_LIMIT) {
      note(
        'AmbientReadings',
        'There was much ambient light: it is subtracted, but darken the room if you can.',
        `at most ${percent(AMBIENT_LIMIT)} of white`,
        percent(part),
      );
    }
  }
  return found;
}

/** A front projector's image is neither smaller than a sheet of paper nor wider than a cinema's screen, m. */
const LENGTHS = { min: 0.2, max: 40 } as const;

function lengths(view: SheetView): Finding[] {
  return (['ImageWidth', 'ImageHeight'] as const).flatMap((name): Finding[] => {
    const place = view.places.get(name.toLowerCase());
    const value = gridOf(view, name)[0]?.[0];
    if (!place || typeof value !== 'number' || (value >= LENGTHS.min && value <= LENGTHS.max)) return [];
    return [
      {
        sheet: view.sheet.name,
        at: place.address,
        kind: 'units',
        severity: 'warning',
        message: `${name} is ${Number(value.toPrecision(4))} m: is the unit of lengths right?`,
        expected: `${LENGTHS.min} to ${LENGTHS.max} m`,
        found: `${value} m`,
        remedy: 'read-again',
      },
    ];
  });
}
