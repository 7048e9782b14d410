import { CORNER_POINTS, NINE_POINTS, type Point } from '../../photometry/points';
import { PRIMARIES, patternShowing } from '../../photometry/tiles';
import type { Typed } from '../filled';
import { sensorFactor } from '../run/causes';
import type { RunSetup } from '../runsetup';
import { type InventedUnit, illuminance, type LitField, Scatter } from './light';
import { display, rangeFor, seenBy } from './meter';

/** Parts by which readings scatter: another place of the meter, and the same place again. */
const PLACE = 0.004;
const AGAIN = 0.002;

type Grid = number[][];

function rows(flat: readonly number[], columns: number): Grid {
  return Array.from({ length: flat.length / columns }, (_, r) => flat.slice(r * columns, (r + 1) * columns));
}
const stemOf = (field: LitField) => `${field[0]!.toUpperCase()}${field.slice(1)}`;

/** What somebody would read off the meter for this unit in this set-up, with the room's own light on the screen. */
export function readingsOf(unit: InventedUnit, setup: RunSetup, area: number, room: number): Typed {
  const scatter = new Scatter(unit.seed);
  const { meter, repeats } = setup;
  const typed: Record<string, Grid> = {};
  const place = sensorFactor(setup.uncertainty);
  /** What the meter makes of the projector's light and the room's, lx. */
  const seenOf = (field: LitField, own: number, dark: number) => seenBy(meter, field, place, own, dark);
  const ambient = NINE_POINTS.map(() => (setup.ambient === 'none' ? 0 : room * scatter.around1(0.06)));

  /** A grid of what the meter makes of the light as typed numbers with the range they were read in. */
  const put = (readings: string, range: string, columns: number, lux: readonly number[], repeat?: string) => {
    const factor = rangeFor(lux.map((e) => (e * (1 + 4 * AGAIN)) / meter.calibration));
    typed[readings] = rows(
      lux.map((e) => display(e, factor, meter.calibration)),
      columns,
    );
    typed[range] = rows(
      lux.map(() => factor),
      columns,
    );
    if (repeat === undefined) return;
    for (let k = 2; k <= repeats; k++)
      typed[`${repeat}${k}`] = rows(
        lux.map((e) => display(e * scatter.around1(AGAIN), factor, meter.calibration)),
        columns,
      );
  };
  const seen = (field: LitField, points: readonly Point[], own: readonly number[]) =>
    points.map((point, i) =>
      seenOf(field, illuminance(unit, field, area, point) * scatter.around1(PLACE), own[i]!),
    );

  if (setup.ambient === 'once') put('AmbientReadings', 'AmbientRange', 1, [ambient[4]!]);
  if (setup.ambient === 'nine points') put('AmbientReadings', 'AmbientRange', 3, ambient);
  const there = setup.ambient === 'once' ? ambient.map(() => ambient[4]!) : ambient;

  const field = (name: LitField) => {
    const stem = stemOf(name);
    put(`${stem}Readings`, `${stem}Range`, 3, seen(name, NINE_POINTS, there), `${stem}Repeat`);
  };
  field('white');
  if (setup.colour === 'full fields') for (const name of PRIMARIES) field(name);
  if (setup.colour === 'tiled patterns') putPatterns();
  if (setup.black) {
    const lux = NINE_POINTS.map((point, i) =>
      seenOf('white', illuminance(unit, 'white', area, point) / unit.contrast, there[i]!),
    );
    put('BlackReadings', 'BlackRange', 3, lux);
  }
  if (setup.corners) {
    // The ambient light of the nearest of the nine points.
    const own = [0, 2, 6, 8].map((i) => there[i]!);
    put('CornerReadings', 'CornerRange', 2, seen('white', CORNER_POINTS, own));
  }
  if (setup.checkerboard) {
    const lux = boardPoints().map(({ point, isWhite }) =>
      seenOf('white', illuminance(unit, 'white', area, point) * (isWhite ? 0.97 : 1 / unit.board), there[4]!),
    );
    put('BoardReadings', 'BoardRange', 4, lux);
    // One range factor serves the whole board.
    typed.BoardRange = [[typed.BoardRange![0]![0]!]];
  }
  const centre = illuminance(unit, 'white', area, NINE_POINTS[4]!) * (1 + unit.drift);
  put('LastReading', 'LastRange', 1, [seenOf('white', centre, there[4]!)]);
  return typed;

  /** Each pattern shows every primary in three of its tiles. */
  function putPatterns(): void {
    const primaries = PRIMARIES.map((name) => seen(name, NINE_POINTS, there));
    ['A', 'B', 'C'].forEach((letter, pattern) => {
      const shown = NINE_POINTS.map((_, i) =>
        PRIMARIES.findIndex((name) => patternShowing(name, Math.floor(i / 3), i % 3) === pattern),
      );
      put(
        `Pattern${letter}`,
        `Pattern${letter}Range`,
        3,
        shown.map((p, i) => primaries[p]![i]!),
        `Pattern${letter}Repeat`,
      );
    });
  }
}

/** Centres of the 4 × 4 tiles, the top left one white. */
function boardPoints(): { readonly point: Point; readonly isWhite: boolean }[] {
  return Array.from({ length: 16 }, (_, i) => {
    const [r, c] = [Math.floor(i / 4), i % 4];
    return {
      point: { number: i + 1, name: '', u: (2 * c + 1) / 8, v: (2 * r + 1) / 8 },
      isWhite: (r + c) % 2 === 0,
    };
  });
}
