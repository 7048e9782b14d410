import { sortBoard } from '../../photometry/contrast';
import { all, chain, good, type Outcome } from '../../photometry/outcome';
import {
  CHECKER,
  CORNERS,
  displayNumbers,
  type GridShape,
  mean,
  NINE,
  netIlluminances,
  type RawCell,
  SINGLE,
} from '../../photometry/reading';
import { type Primary, sortTiles } from '../../photometry/tiles';
import { LUX } from '../../photometry/units';
import type { CellName } from '../../sheets/names/all';
import { type GridEnd, REPEATS } from '../../sheets/names/shared';
import { sensorFactor } from '../../sheets/run/causes';
import type { RunSetup } from '../../sheets/runsetup';
import { gridOf, type SheetView } from '../view';

export type FieldStem = 'White' | 'Red' | 'Green' | 'Blue';

/** What was typed for one field: each repeat's nine numbers on the display, and the range factors. */
export interface Typed {
  readonly repeats: readonly (readonly number[])[];
  readonly ranges: readonly number[];
}

/**
 * Illuminances of a run, worked out again from what was typed into the sheet: display numbers, range factors
 * and set-up. No formula of the sheet and no result of one is looked at.
 */
export class Readings {
  constructor(
    private readonly view: SheetView,
    private readonly setup: RunSetup,
  ) {}

  /** Numbers and range factors as typed, sorted out of the tiles where the colours were tiled. */
  typed(stem: FieldStem): Outcome<Typed> {
    const { colour, repeats } = this.setup;
    const isTiled = colour === 'tiled patterns' && stem !== 'White';
    const grid = (end: GridEnd | '') =>
      isTiled ? this.sorted(end, stem.toLowerCase() as Primary) : this.cells(`${stem}${end || 'Readings'}`);
    const ends = (['', ...REPEATS] as const).slice(0, repeats);
    const read = all(ends.map((end) => displayNumbers(grid(end), NINE, stem)));
    return chain(read, (lists) =>
      chain(displayNumbers(grid('Range'), NINE, `${stem} range factor`), (ranges) =>
        good({ repeats: lists, ranges }),
      ),
    );
  }

  /** The black field as typed; its readings may be 0. */
  typedBlack(): Outcome<Typed> {
    const read = all([
      displayNumbers(this.cells('BlackReadings'), NINE, 'black', 'reading'),
      displayNumbers(this.cells('BlackRange'), NINE, 'black range factor'),
    ] as const);
    return chain(read, ([list, ranges]) => good({ repeats: [list], ranges }));
  }

  /** The checkerboard as typed, its tiles sorted; one range factor for all of them. */
  typedBoard(): Outcome<{ readonly white: number[]; readonly black: number[]; readonly range: number }> {
    const topLeft = this.cells('BoardTopLeft')[0]?.[0] === 'black' ? 'black' : 'white';
    const read = all([
      displayNumbers(this.cells('BoardReadings'), CHECKER, 'checkerboard', 'reading'),
      displayNumbers([[this.cells('BoardRange')[0]?.[0] ?? null]], SINGLE, 'checkerboard range factor'),
    ] as const);
    return chain(read, ([sixteen, [range]]) => good({ ...sortBoard(sixteen, topLeft), range: range! }));
  }

  /** Net illuminances of nine points, lx, each from the mean of its repeats. */
  net(stem: FieldStem): Outcome<number[]> {
    return chain(this.ambient(), (ambient) => this.less(stem, ambient));
  }

  /** The same with ambient still in them. */
  gross(stem: FieldStem): Outcome<number[]> {
    return this.less(stem, 0);
  }

  private less(stem: FieldStem, ambient: number | readonly number[]): Outcome<number[]> {
    return chain(this.typed(stem), ({ repeats, ranges }) => {
      const display = ranges.map((_, i) => mean(repeats.map((list) => list[i]!)));
      return netIlluminances(display, NINE, stem, {
        ...this.conversion(stem.toLowerCase() as Primary | 'white'),
        range: ranges,
        ambient,
      });
    });
  }

  /** Gross illuminances of the black field, lx: its net values are judged as a mean. */
  black(): Outcome<number[]> {
    return this.convert('black', NINE, this.cells('BlackReadings'), this.cells('BlackRange'), 0, 'reading');
  }

  /** Net illuminances of points 10 to 13, each with the ambient of the nearest of the nine. */
  corners(): Outcome<number[]> {
    return chain(this.ambient(), (nine) => {
      const nearest = NEAREST.map((point) => nine[point]!);
      return this.convert(
        'corner',
        CORNERS,
        this.cells('CornerReadings'),
        this.cells('CornerRange'),
        nearest,
        'missing',
      );
    });
  }

  /** Gross illuminances of the sixteen tiles. */
  board(): Outcome<number[]> {
    const range = this.cells('BoardRange')[0]?.[0] ?? null;
    const ranges = Array.from({ length: 4 }, () => Array.from({ length: 4 }, () => range));
    return this.convert('checkerboard', CHECKER, this.cells('BoardReadings'), ranges, 0, 'reading');
  }

  /** Ambient illuminance at each of the nine points, lx; 0 where none was measured. */
  ambient(): Outcome<number[]> {
    if (this.setup.ambient === 'none') return good(Array.from({ length: 9 }, () => 0));
    const shape = this.setup.ambient === 'once' ? SINGLE : NINE;
    const { unit, calibration } = this.setup.meter;
    const found = chain(
      displayNumbers(this.cells('AmbientReadings'), shape, 'ambient', 'reading'),
      (display) =>
        chain(displayNumbers(this.cells('AmbientRange'), shape, 'ambient range factor'), (range) =>
          netIlluminances(display, shape, 'ambient', { unit, range, correction: calibration, ambient: 0 }),
        ),
    );
    return chain(found, (lux) => good(Array.from({ length: 9 }, (_, i) => lux[i] ?? lux[0]!)));
  }

  /** Range factors of the ambient reading: one, or nine. */
  ambientRanges(): Outcome<number[]> {
    const shape = this.setup.ambient === 'once' ? SINGLE : NINE;
    return displayNumbers(this.cells('AmbientRange'), shape, 'ambient range factor');
  }

  /** One step of the display as illuminance, in the widest range used. */
  step(ranges: 'BlackRange' | 'BoardRange'): number {
    const widest = Math.max(...this.cells(ranges).flat().map(Number));
    const { unit, correction } = this.conversion('white');
    return this.setup.meter.digit * widest * LUX[unit] * correction;
  }

  /** First and last centre reading, with their range factors applied. */
  centres(): Outcome<readonly [number, number]> {
    const at = (name: CellName, row: number) =>
      displayNumbers([[this.cells(name)[row]?.[row] ?? null]], SINGLE, 'centre');
    const four = all([
      at('WhiteReadings', 1),
      at('WhiteRange', 1),
      at('LastReading', 0),
      at('LastRange', 0),
    ] as const);
    return chain(four, ([[first], [firstRange], [last], [lastRange]]) =>
      good([first! * firstRange!, last! * lastRange!] as const),
    );
  }

  /** Unit and correction of a colour. */
  conversion(colour: Primary | 'white') {
    const { unit, calibration, corrections } = this.setup.meter;
    return { unit, correction: calibration * corrections[colour] * sensorFactor(this.setup.uncertainty) };
  }

  /** Readings or range factors of one primary, picked out of the three tiled patterns. */
  private sorted(end: GridEnd | '', primary: Primary): RawCell[][] {
    const patterns = (['A', 'B', 'C'] as const).map((letter) => this.cells(`Pattern${letter}${end}`));
    const isWhole = patterns.every((grid) => grid.length === 3 && grid.every((row) => row.length === 3));
    return isWhole ? sortTiles(patterns, primary) : [];
  }

  private convert(
    label: string,
    shape: GridShape,
    typed: RawCell[][],
    ranges: RawCell[][],
    ambient: number | readonly number[],
    zero: 'reading' | 'missing',
  ): Outcome<number[]> {
    return chain(displayNumbers(typed, shape, label, zero), (display) =>
      chain(displayNumbers(ranges, shape, `${label} range factor`), (range) =>
        netIlluminances(display, shape, label, { ...this.conversion('white'), range, ambient }),
      ),
    );
  }

  private cells(name: CellName): RawCell[][] {
    return gridOf(this.view, name);
  }
}

/** Which of the nine points lies nearest to each corner. */
const NEAREST = [0, 2, 6, 8];
