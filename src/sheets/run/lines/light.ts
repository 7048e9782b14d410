import type { RunSetup } from '../../runsetup';
import { lightOf } from '../lightof';
import { PRIMARY_STEMS } from '../stems';
import {
  ADDED,
  ambient,
  digits,
  display,
  drift,
  everywhere,
  gain,
  gross,
  type Line,
  linearity,
  madeOf,
  mismatch,
  mixture,
  placing,
  rectangular,
  rounding,
  scatter,
  squares,
} from './line';

/*
 * Sensitivities are the first derivatives of
 *   Φ = mean(gain·mismatch·(linearity·placing·gross + offsets − light·ambient)) · size · square · drift · sensor · room · other,
 * where gross is the reading with all corrections and light what of them is for the projector's light alone,
 * and for the ratio those of Φ_colour ÷ Φ_white, so that what is common to both cancels on the sheet too
 * (GUM 5.1.2 and F.1.2). "0-" and not a leading minus: one engine takes a minus before a name for part of it.
 */
const W = 'WhiteLightOutputPlain';
const C = 'ColourLightOutputPlain';
const R = 'ColourToWhitePlain';
const A = 'ImageArea';

/**
 * One length is measured of a rectangle: width and height are wrong together. Of four sides each is wrong on its own,
 * and both are one row all the same, so that runs compare line by line.
 */
export function sizeHalf({ image }: Pick<RunSetup, 'image'>): string {
  const [width, height] = ['WidthHalfUsed/1000/ImageWidth', 'HeightHalfUsed/1000/ImageHeight'];
  return image.shape === 'rectangle' ? `${width}+${height}` : `SQRT((${width})^2+(${height})^2)`;
}
const whole = (setup: RunSetup, value: string) => [
  rectangular('Image size', sizeHalf(setup), 'of area', value),
  rectangular('Image not square', 'SquareHalfUsed', 'of area', value),
];
const other = (value: string) => rectangular('Another cause', 'OtherHalfUsed', 'of output', value);
const primaries = PRIMARY_STEMS.map(rounding).join('+');
/** What of ambient light is taken off red, green and blue together. */
const taken = `(${PRIMARY_STEMS.map(lightOf).join('+')})`;
const primarySquares = PRIMARY_STEMS.map(squares).join('+');
/** The mean of nine points, each read `repeats` times. */
const ofMean = (repeats: number) => `${A}/3/SQRT(${repeats})`;

export function whiteLines(setup: RunSetup): Line[] {
  const { repeats, colour } = setup;
  const lumens = `${A}*${gross('White')}`;
  return [
    gain(W),
    linearity('White', lumens),
    digits(`${A}*SQRT(SUMSQ(DigitsWhite))`),
    display(`${A}*SQRT(${rounding('White')})/9`),
    scatter('White', repeats, ofMean(repeats)),
    placing(`${A}*SQRT(${squares('White')})/9`),
    mixture(colour !== 'none', W),
    ...whole(setup, W),
    ambient(`0-${A}*${lightOf('White')}`),
    drift(W),
    ...everywhere(W),
    other(W),
  ];
}

export function colourLines(setup: RunSetup): Line[] {
  const { repeats } = setup;
  return [
    gain(C),
    ...PRIMARY_STEMS.map((stem) => linearity(stem, `${A}*${gross(stem)}`)),
    digits(`${A}*SQRT(SUMSQ(DigitsColour))`),
    display(`${A}*SQRT(${primaries})/9`),
    ...PRIMARY_STEMS.map((stem) => scatter(stem, repeats, ofMean(repeats))),
    placing(`${A}*SQRT(${primarySquares})/9`),
    ...PRIMARY_STEMS.map((stem) => mismatch(stem, `${stem}LightOutputPlain`)),
    ...whole(setup, C),
    ambient(`0-${A}*${taken}`),
    drift(C),
    ...everywhere(C),
    other(C),
  ];
}

export function ratioLines(setup: RunSetup): Line[] {
  const { repeats } = setup;
  const white = `${R}*${A}*${gross('White')}/${W}`;
  return [
    gain('0'),
    linearity('White', `0-${white}`),
    ...PRIMARY_STEMS.map((stem) => linearity(stem, `${A}*${gross(stem)}/${W}`)),
    digits(`${A}/${W}*SQRT(SUMPRODUCT((DigitsColour-${R}*DigitsWhite)^2))`),
    display(`${A}/${W}*SQRT(${primaries}+${R}^2*${rounding('White')})/9`),
    scatter('White', repeats, `0-${R}*${ofMean(repeats)}/${W}`),
    ...PRIMARY_STEMS.map((stem) => scatter(stem, repeats, `${ofMean(repeats)}/${W}`)),
    placing(`${A}/${W}*SQRT(${primarySquares}+${R}^2*${squares('White')})/9`),
    // What the primaries make of white is wrong as they are: in the ratio only what is added stays.
    { ...mismatch('White', `0-${R}*${ADDED}`), label: 'Spectral mismatch, added light' },
    ...PRIMARY_STEMS.map((stem) => mismatch(stem, `${stem}LightOutputPlain/${W}-${R}*${madeOf(stem)}`)),
    ...whole(setup, '0'),
    ambient(`${A}*(${R}*${lightOf('White')}-${taken})/${W}`),
    drift(`0-${R}`, ', white'),
    drift(R, ', colours'),
    other('0'),
  ];
}
