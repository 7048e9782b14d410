import type { RunSetup } from '../../runsetup';
import { PRIMARY_STEMS } from '../stems';
import {
  ambient,
  digits,
  display,
  drift,
  gain,
  gross,
  type Line,
  mismatch,
  rectangular,
  rounding,
  scatter,
} from './line';

/*
 * Sensitivities are the first derivatives of
 *   Φ = mean(gain·(mismatch·gross + offsets) − gain·ambient) · width · height · square · drift · other,
 * and for the ratio those of Φ_colour ÷ Φ_white, so that what is common to both cancels on the sheet too
 * (GUM 5.1.2 and F.1.2). "0-" and not a leading minus: one engine takes a minus before a name for part of it.
 */
const W = 'WhiteLightOutputPlain';
const C = 'ColourLightOutputPlain';
const R = 'ColourToWhitePlain';
const A = 'ImageArea';

const whole = (value: string) => [
  rectangular('Image width', 'WidthHalfUsed/1000', 'm', value === '0' ? '0' : `${value}/ImageWidth`),
  rectangular('Image height', 'HeightHalfUsed/1000', 'm', value === '0' ? '0' : `${value}/ImageHeight`),
  rectangular('Image not square', 'SquareHalfUsed', 'of area', value),
];
const other = (value: string) => rectangular('Another cause', 'OtherHalfUsed', 'of output', value);
const primaries = PRIMARY_STEMS.map(rounding).join('+');
/** The mean of nine points, each read `repeats` times. */
const ofMean = (repeats: number) => `${A}/3/SQRT(${repeats})`;

export function whiteLines({ repeats }: RunSetup): Line[] {
  return [
    gain(W),
    digits(`${A}*SQRT(SUMSQ(DigitsWhite))`),
    display(`${A}*SQRT(${rounding('White')})/9`),
    scatter('White', repeats, ofMean(repeats)),
    mismatch('White', `${A}*${gross('White')}`),
    ...whole(W),
    ambient(`0-${A}`),
    drift(W),
    other(W),
  ];
}

export function colourLines({ repeats }: RunSetup): Line[] {
  return [
    gain(C),
    digits(`${A}*SQRT(SUMSQ(DigitsColour))`),
    display(`${A}*SQRT(${primaries})/9`),
    ...PRIMARY_STEMS.map((stem) => scatter(stem, repeats, ofMean(repeats))),
    ...PRIMARY_STEMS.map((stem) => mismatch(stem, `${A}*${gross(stem)}`)),
    ...whole(C),
    ambient(`0-3*${A}`),
    drift(C),
    other(C),
  ];
}

export function ratioLines({ repeats }: RunSetup): Line[] {
  return [
    gain('0'),
    digits(`${A}/${W}*SQRT(SUMPRODUCT((DigitsColour-${R}*DigitsWhite)^2))`),
    display(`${A}/${W}*SQRT(${primaries}+${R}^2*${rounding('White')})/9`),
    scatter('White', repeats, `0-${R}*${ofMean(repeats)}/${W}`),
    ...PRIMARY_STEMS.map((stem) => scatter(stem, repeats, `${ofMean(repeats)}/${W}`)),
    mismatch('White', `0-${R}*${A}*${gross('White')}/${W}`),
    ...PRIMARY_STEMS.map((stem) => mismatch(stem, `${A}*${gross(stem)}/${W}`)),
    ...whole('0'),
    ambient(`${A}*(${R}-3)/${W}`),
    drift(`0-${R}`, ', white'),
    drift(R, ', colours'),
    other('0'),
  ];
}
