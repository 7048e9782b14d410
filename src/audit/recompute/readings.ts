import { chain, good, type Outcome } from '../../photometry/outcome';
import {
  CHECKER,
  CORNERS,
  displayNumbers,
  type GridShape,
  NINE,
  netIlluminances,
  type RawCell,
  SINGLE,
} from '../../photometry/reading';
import { type Primary, sortTiles } from '../../photometry/tiles';
import type { RunSetup } from '../../sheets/runsetup';
import { gridOf, type SheetView } from '../view';

/**
 * Illuminances of a run, worked out again from what was typed into the sheet: display numbers, range factors
 * and set-up. No formula of the sheet and no result of one is looked at.
 */
export class Readings {
  constructor(
    private readonly view: SheetView,
    private readonly setup: RunSetup,
  ) {}

  /** Net illuminances of nine points, lx, by the stem of the field's names. */
  net(stem: 'White' | 'Red' | 'Green' | 'Blue'): Outcome<number[]> {
    return chain(this.ambient(), (ambient) => this.illuminances(stem, ambient));
  }

  /** Gross illuminances of the black field, lx: its net values are judged as a mean. */
  black(): Outcome<number[]> {
    return this.convert('Black', NINE, this.cells('BlackReadings'), this.cells('BlackRange'), 'white', 0);
  }

  /** Net illuminances of points 10 to 13, each with the ambient of the nearest of the nine. */
  corners(): Outcome<number[]> {
    return chain(this.ambient(), (nine) =>
      this.convert(
        'corner',
        CORNERS,
        this.cells('CornerReadings'),
        this.cells('CornerRange'),
        'white',
        NEAREST.map((point) => nine[point]!),
      ),
    );
  }

  /** Gross illuminances of the sixteen tiles. */
  board(): Outcome<number[]> {
    const range = this.cells('BoardRange')[0]?.[0] ?? null;
    const ranges = Array.from({ length: 4 }, () => Array.from({ length: 4 }, () => range));
    return this.convert('checkerboard', CHECKER, this.cells('BoardReadings'), ranges, 'white', 0);
  }

  /** Ambient illuminance at each of the nine points, lx; 0 where none was measured. */
  ambient(): Outcome<number[]> {
    if (this.setup.ambient === 'none') return good(Array.from({ length: 9 }, () => 0));
    const shape = this.setup.ambient === 'once' ? SINGLE : NINE;
    const found = this.convert(
      'ambient',
      shape,
      this.cells('AmbientReadings'),
      this.cells('AmbientRange'),
      undefined,
      0,
    );
    return chain(found, (lux) => good(Array.from({ length: 9 }, (_, i) => lux[i] ?? lux[0]!)));
  }

  /** One step of the display as illuminance, in the widest range used. */
  step(ranges: 'BlackRange' | 'BoardRange'): number {
    const widest = Math.max(...this.cells(ranges).flat().map(Number));
    const { meter } = this.setup;
    const lux = meter.unit === 'fc' ? 1 / 0.3048 ** 2 : 1;
    return meter.digit * widest * lux * meter.calibration * meter.corrections.white;
  }

  /** First and last centre reading, with their range factors applied. */
  centres(): Outcome<readonly [number, number]> {
    const at = (name: string, row: number, column: number) =>
      displayNumbers([[this.cells(name)[row]?.[column] ?? null]], SINGLE, 'centre');
    return chain(at('WhiteReadings', 1, 1), ([first]) =>
      chain(at('WhiteRange', 1, 1), ([firstRange]) =>
        chain(at('LastReading', 0, 0), ([last]) =>
          chain(at('LastRange', 0, 0), ([lastRange]) =>
            good([first! * firstRange!, last! * lastRange!] as const),
          ),
        ),
      ),
    );
  }

  private illuminances(stem: 'White' | 'Red' | 'Green' | 'Blue', ambient: readonly number[]) {
    const colour = stem.toLowerCase() as Primary | 'white';
    const isSorted = this.setup.colour === 'tiled patterns' && colour !== 'white';
    const typed = isSorted ? this.sorted('', colour) : this.cells(`${stem}Readings`);
    const ranges = isSorted ? this.sorted('Range', colour) : this.cells(`${stem}Range`);
    return this.convert(stem, NINE, typed, ranges, colour, ambient);
  }

  /** Readings or range factors of one primary, picked out of the three tiled patterns. */
  private sorted(suffix: '' | 'Range', primary: Primary): RawCell[][] {
    const patterns = ['A', 'B', 'C'].map((letter) => this.cells(`Pattern${letter}${suffix}`));
    const isWhole = patterns.every((grid) => grid.length === 3 && grid.every((row) => row.length === 3));
    return isWhole ? sortTiles(patterns, primary) : [];
  }

  private convert(
    label: string,
    shape: GridShape,
    typed: RawCell[][],
    ranges: RawCell[][],
    colour: Primary | 'white' | undefined,
    ambient: number | readonly number[],
  ): Outcome<number[]> {
    const zero = ['Black', 'ambient', 'checkerboard'].includes(label) ? 'reading' : 'missing';
    const { unit, calibration, corrections } = this.setup.meter;
    const correction = calibration * (colour ? corrections[colour] : 1);
    return chain(displayNumbers(typed, shape, label, zero), (display) =>
      chain(displayNumbers(ranges, shape, `${label} range factor`), (range) =>
        netIlluminances(display, shape, label, { unit, range, correction, ambient }),
      ),
    );
  }

  private cells(name: string): RawCell[][] {
    return gridOf(this.view, name);
  }
}

/** Which of the nine points lies nearest to each corner. */
const NEAREST = [0, 2, 6, 8];
