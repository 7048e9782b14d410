/*
 * What the sheet tells of its method. What is common to all readings (calibration, colours) cancels in every part: that
 * is why none needs a laboratory, and why none replaces one.
 */
export const METHOD =
  'A meter held against itself: readings that should agree, in five parts. Each may be left out. What is common to all readings, the meter’s calibration and its error in colours, cancels and is not seen here: that stays what its certificate or data sheet says.';

export const CAUTION =
  'Eyes first: never look into a lamp or a lens. Let lamp and meter warm up for half an hour in a dark room without people moving about, the meter’s sensor square to the light. Every part wants a light that holds still: take the readings of a round one after the other, without a pause.';

export const REPEATS_HOW =
  '1 and 2 · Repeat in one place, in one range. First column: the meter lies still; cover the sensor and uncover it for each reading. Second column: take the meter away and put it back to its mark for each. Scatter of one reading s = √(Σ(reading − mean)² ÷ (n − 1)), Type A, ν = n − 1 (JCGM 100:2008, 4.2.2). Placing: ± √3 · √((n − 1) ÷ (n − 3)) · s (JCGM 101:2008, 6.4.9; clause from memory).';

export const RANGES_HOW =
  '3 · Two ranges on one light. Choose a light near the top of the lower range, so that it reads in both. Five rounds: lower range, higher range. Error = reading in the higher range ÷ reading in the lower one − 1 (the adjustment of ranges of ISO/CIE 19476:2014, as an error of the readings; index f11 of DIN 5032-7).';

export const DISTANCES_HOW =
  '4 · Two distances. One small lamp, no mirrors, the sensor on its axis; four times the light at half the distance. In each round: near, near with the lamp’s own light blocked just before the lamp, far, far with it blocked; a light and its dark in one range. Near and far must then agree as E · (d² + R² + r²), R and r the radii of lamp and sensor (disc on its axis, to its first order; the inverse square law from about ten diameters on, where R² is below 0.3 % of d²). A sphere needs no R²: the term counts as doubt, too.';

export const SUMS_HOW =
  '5 · Parts against the whole. Three lights that add up: each alone, then all at once (superposition). Three lamps of which two are covered in turn; or red, green and blue of a projector whose white is their sum and nothing else. A linear meter’s error in colours is in parts and whole alike and cancels. Where a projector adds light to white, the whole is larger by that, which is no error of the meter.';

export const USE_HOW =
  'Into a run: the form of a run offers this check by its meter and day and fills in repeatability, placing, and linearity with range step. Errors are not corrected for: the limit is the mean error without its sign + U at 95.45 %, with ν by Welch–Satterthwaite (JCGM 100:2008, 4.3.7, F.2.4.5, G.4). It holds for the levels and ranges that were read.';
