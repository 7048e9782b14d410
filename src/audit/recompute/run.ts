import { measuredShares, standardShares } from '../../photometry/colour';
import { type Contrast, checkerboardContrast, sequentialContrast } from '../../photometry/contrast';
import { drift } from '../../photometry/drift';
import { imageSize, quadrilateral } from '../../photometry/image';
import { colourLightOutput, colourToWhite, lightOutput } from '../../photometry/lightoutput';
import { luminance } from '../../photometry/luminance';
import { all, chain, good, type Outcome } from '../../photometry/outcome';
import { mean } from '../../photometry/reading';
import { PRIMARIES } from '../../photometry/tiles';
import { cornersOverCentre, deviations, minOverMax, minOverMean } from '../../photometry/uniformity';
import { METRES } from '../../photometry/units';
import { stemOf } from '../../sheets/names/stem';
import type { RunSetup } from '../../sheets/runsetup';
import type { Recomputed } from '../kinds/kind';
import { gridOf, type SheetView } from '../view';
import { Readings } from './readings';
import { doubtsOf, recomputeUncertainty, type Size } from './uncertainty';

/**
 * Every result of a run sheet, worked out again from readings and set-up by the functions of photometry, past
 * all formulas of the sheet. By the result's name.
 */
export function recomputeRun(view: SheetView, setup: RunSetup): Map<string, Recomputed> {
  const readings = new Readings(view, setup);
  const found = new Map<string, Recomputed>();
  const size = sizeOf(setup);
  const area = chain(size, (image) => good(image.area));
  const white = readings.net('White');
  const output = (nine: Outcome<number[]>) => chain(nine, (e) => chain(area, (a) => lightOutput(e, a)));
  const whiteOutput = output(white);
  found.set('WhiteLightOutput', whiteOutput);
  if (setup.colour !== 'none') putColour(found, readings, output, whiteOutput, setup.standard);
  const lux = chain(white, (e) => good(mean(e)));
  found.set('WhiteIlluminance', lux);
  for (const [name, unit] of [
    ['ScreenLuminance', 'cd/m²'],
    ['ScreenFootlamberts', 'fL'],
  ] as const) {
    found.set(
      name,
      chain(lux, (e) => good(luminance(e, setup.gain, unit))),
    );
  }
  found.set('UniformityMinMax', chain(white, minOverMax));
  found.set('UniformityMinMean', chain(white, minOverMean));
  if (setup.corners) putCorners(found, white, readings.corners());
  const doubts = doubtsOf(setup, readings);
  if (setup.black) putBlack(found, readings, doubts.contrast);
  if (setup.checkerboard) putBoard(found, view, readings, doubts.board);
  // The sheet tells it once all of white is there, although two readings would do.
  const isThere = all([readings.typed('White'), readings.ambient()] as const);
  found.set(
    'Drift',
    chain(isThere, () => chain(readings.centres(), ([first, last]) => drift(first, last))),
  );
  for (const [name, value] of recomputeUncertainty(setup, readings, size, found)) found.set(name, value);
  return found;
}

/** The image in metres; of four sides the mean width and height and the true area. */
export function sizeOf({ image }: RunSetup): Outcome<Size> {
  const m = METRES[image.unit];
  if (image.shape === 'rectangle') {
    const { known, length, across, down } = image;
    return imageSize(known, length * m, { across, down });
  }
  const { top, right, bottom, left, falling, rising } = image;
  const sides = {
    top: top * m,
    right: right * m,
    bottom: bottom * m,
    left: left * m,
    falling: falling * m,
    rising: rising * m,
  };
  return chain(quadrilateral(sides), ({ area }) =>
    good({ width: (sides.top + sides.bottom) / 2, height: (sides.left + sides.right) / 2, area }),
  );
}

function putColour(
  found: Map<string, Recomputed>,
  readings: Readings,
  output: (nine: Outcome<number[]>) => Outcome<number>,
  white: Outcome<number>,
  standard: string,
): void {
  const [red, green, blue] = (['Red', 'Green', 'Blue'] as const).map((stem) => output(readings.net(stem)));
  found.set('RedLightOutput', red!).set('GreenLightOutput', green!).set('BlueLightOutput', blue!);
  const three = all([red!, green!, blue!] as const);
  const colour = chain(three, ([r, g, b]) => good(colourLightOutput(r, g, b)));
  found.set('ColourLightOutput', colour);
  found.set(
    'ColourToWhite',
    chain(all([colour, white] as const), ([c, w]) => colourToWhite(c, w)),
  );
  for (const primary of PRIMARIES) {
    const stem = stemOf(primary);
    found.set(
      `${stem}Share`,
      chain(three, ([r, g, b]) => chain(measuredShares(r, g, b), (shares) => good(shares[primary]))),
    );
    found.set(
      `${stem}ShareStandard`,
      chain(standardShares(standard), (shares) => good(shares[primary])),
    );
  }
}

function putCorners(
  found: Map<string, Recomputed>,
  white: Outcome<number[]>,
  corners: Outcome<number[]>,
): void {
  const thirteen = all([white, corners] as const);
  const deviation = chain(thirteen, ([nine, four]) => deviations(nine, four));
  found.set(
    'DeviationPlus',
    chain(deviation, ({ plus }) => good(plus)),
  );
  found.set(
    'DeviationMinus',
    chain(deviation, ({ minus }) => good(minus)),
  );
  found.set(
    'CornersToCentre',
    chain(thirteen, ([nine, four]) => cornersOverCentre(nine, four)),
  );
}

function putBlack(found: Map<string, Recomputed>, readings: Readings, doubt = 0): void {
  const step = readings.step('BlackRange');
  const net = all([readings.net('White'), readings.black(), readings.ambient()] as const);
  found.set(
    'SequentialContrast',
    shown(
      chain(net, ([white, black, ambient]) =>
        sequentialContrast(
          white,
          black.map((e, i) => e - ambient[i]!),
          step,
          doubt,
        ),
      ),
    ),
  );
  // Ambient is asked for all the same: the sheet has no illuminance without it.
  const seen = all([readings.gross('White'), readings.black(), readings.ambient()] as const);
  found.set(
    'SequentialContrastSeen',
    shown(chain(seen, ([white, black]) => sequentialContrast(white, black, step))),
  );
}

function putBoard(found: Map<string, Recomputed>, view: SheetView, readings: Readings, doubt = 0): void {
  const topLeft = gridOf(view, 'BoardTopLeft')[0]?.[0] === 'black' ? 'black' : 'white';
  const step = readings.step('BoardRange');
  const both = all([readings.board(), readings.ambient()] as const);
  const contrast = (ambientSeen: boolean) =>
    chain(both, ([tiles, ambient]) => {
      const off = ambientSeen ? 0 : mean(ambient);
      return checkerboardContrast(
        tiles.map((e) => e - off),
        topLeft,
        step,
        ambientSeen ? 0 : doubt,
      );
    });
  found.set('BoardContrast', shown(contrast(false)));
  found.set('BoardContrastSeen', shown(contrast(true)));
}

/** A lower bound is a text, cut down to whole numbers, so that nobody reckons on with it. */
function shown(outcome: Outcome<Contrast>): Recomputed {
  return chain(outcome, ({ ratio, isLowerBound }) =>
    good(isLowerBound ? `at least ${Math.floor(ratio)}` : ratio),
  );
}
