import { FIELDS, findings } from '../../functions/findings';
import { IMAGE_METRES } from '../../photometry/bounds';
import { AMBIENT_LIMIT, DRIFT_LIMIT } from '../../photometry/drift';
import { CLOSURE_LIMIT } from '../../photometry/image';
import { NOTHING } from '../../photometry/plausibility';
import { mean } from '../../photometry/reading';
import { LENGTH_UNITS } from '../../photometry/units';
import type { CellName } from '../../sheets/names/all';
import { stemOf } from '../../sheets/names/stem';
import type { RunSetup } from '../../sheets/runsetup';
import { sidesProblem } from '../../sheets/setup/sides';
import { gridOf, type SheetView } from '../view';
import type { Finding } from './finding';
import { typedAmbient, typedCentres, typedWhite } from './typedlight';

/** What is odd about the readings though every rule lets them pass, and lengths that point to a wrong unit. */
export function checkPlausible(view: SheetView, setup: RunSetup): Finding[] {
  return [...grids(view, setup), ...whole(view, setup), ...checkImage(view)];
}

/** An image that cannot be, or hardly. */
export function checkImage(view: SheetView): Finding[] {
  return [...sides(view), ...lengths(view)];
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
    const remark = findings(field, raw, meter.digit, {
      unit: meter.unit,
      range: Array.from({ length: 9 }, (_, i) => (typeof ranges[i] === 'number' ? Number(ranges[i]) : 1)),
      correction: meter.calibration,
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
  const [centres, ambient, white] = [
    typedCentres(view, setup),
    typedAmbient(view, setup),
    typedWhite(view, setup),
  ];
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
    if (first > 0 && Math.abs(drift) > DRIFT_LIMIT) {
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

const SIDES = [
  'SideTop',
  'SideRight',
  'SideBottom',
  'SideLeft',
  'DiagonalFalling',
  'DiagonalRising',
] as const;

/** Sides and diagonals that no image has together: sheets of before layout 7, and batches before 5, work out an area all the same. */
function sides(view: SheetView): Finding[] {
  const place = view.places.get('imagearea');
  const typed = SIDES.map((name) => gridOf(view, name)[0]?.[0]);
  const unit = LENGTH_UNITS.find((each) => each === gridOf(view, 'LengthUnit')[0]?.[0]);
  if (!place || !unit || !typed.every((length) => typeof length === 'number')) return [];
  const [top, right, bottom, left, falling, rising] = typed as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const problem = sidesProblem({ shape: 'four sides', unit, top, right, bottom, left, falling, rising });
  if (problem === undefined) return [];
  return [
    {
      sheet: view.sheet.name,
      at: place.address,
      kind: 'reading',
      severity: 'error',
      message: `The image area is of no image: its sides and diagonals do not fit together. ${problem}`,
      expected: `sides and diagonals that fit within ${100 * CLOSURE_LIMIT} % of the longest side`,
      found: `sides ${[top, right, bottom, left].join(', ')} and diagonals ${falling}, ${rising} ${unit}`,
      remedy: 'read-again',
    },
  ];
}

function lengths(view: SheetView): Finding[] {
  return (['ImageWidth', 'ImageHeight'] as const).flatMap((name): Finding[] => {
    const place = view.places.get(name.toLowerCase());
    const value = gridOf(view, name)[0]?.[0];
    if (!place || typeof value !== 'number' || (value >= IMAGE_METRES.min && value <= IMAGE_METRES.max))
      return [];
    return [
      {
        sheet: view.sheet.name,
        at: place.address,
        kind: 'units',
        severity: 'warning',
        message: `${name} is ${Number(value.toPrecision(4))} m: is the unit of lengths right?`,
        expected: `${IMAGE_METRES.min} to ${IMAGE_METRES.max} m`,
        found: `${value} m`,
        remedy: 'read-again',
      },
    ];
  });
}
