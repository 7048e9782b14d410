import type { RunSetup } from '../../runsetup';
import { lightOf } from '../lightof';
import {
  ambient,
  DOF_KNOWN,
  digits,
  display,
  drift,
  everywhere,
  gain,
  gross,
  type Line,
  linearity,
  mismatch,
  mixture,
  placing,
  rectangular,
  rounding,
  scatter,
  squares,
} from './line';

/*
 * What is seen on the screen: luminance, uniformity, contrasts. The image's size has no part in any of them, and
 * in the quotients the meter's common gain cancels: its row stands there with sensitivity 0 to show it.
 */

/** What corrects the light of white, of black and of the board: it is taken off ambient light as often. */
const LIGHT = lightOf('White');

/** L = mean white illuminance · drift · screen gain ÷ π. */
export function luminanceLines({ repeats, colour }: RunSetup): Line[] {
  const [L, G] = ['ScreenLuminancePlain', 'ScreenGain/PI()'];
  return [
    gain(L),
    linearity('White', `${G}*${gross('White')}`),
    digits(`${G}*SQRT(SUMSQ(DigitsWhite))`),
    display(`${G}*SQRT(${rounding('White')})/9`),
    scatter('White', repeats, `${G}/3/SQRT(${repeats})`),
    placing(`${G}*SQRT(${squares('White')})/9`),
    mixture(colour !== 'none', L),
    ambient(`0-${G}*${LIGHT}`),
    drift(L),
    ...everywhere(L),
    rectangular('Screen gain', 'GainHalfUsed', 'of gain', L),
  ];
}

/**
 * V = E_darkest ÷ E_brightest, for these two points as they were found. The meter's digits are one offset of what was
 * read in one range, ambient light included.
 */
export function uniformityLines({ repeats, ambient: mode, colour }: RunSetup): Line[] {
  const [V, most] = ['UniformityMinMaxPlain', 'MAX(WhiteNet)'];
  const [dark, bright] = ['Darkest', 'Brightest'].map((extreme) => ({
    range: `${extreme}Range`,
    ambient: mode === 'nine points' ? `${extreme}Ambient` : 'AmbientLux',
  })) as [Extreme, Extreme];
  const both = `SQRT(${dark.range}^2+(${V}*${bright.range})^2)`;
  const [low, high] = [`(MIN(WhiteNet)+${dark.ambient}*${LIGHT})`, `(${most}+${bright.ambient}*${LIGHT})`];
  return [
    gain('0'),
    linearity('White', `(${low}-${V}*${high})/${most}`),
    digits(`SQRT(SUMSQ(DigitsUniformity))/${most}`),
    display(`WhiteCorrection/${most}*${both}`),
    repeats > 1
      ? scatter('White', repeats, `SQRT(1+${V}^2)/SQRT(${repeats})/${most}`)
      : {
          ...scatter('White', 1, `SQRT(${low}^2+(${V}*${high})^2)/${most}`),
          half: 'RepeatPartUsed',
          unit: 'of reading',
        },
    placing(`SQRT(${low}^2+(${V}*${high})^2)/${most}`),
    // What corrects white bears on both points alike.
    mixture(colour !== 'none', '0'),
    ambient(`(${V}-1)*${LIGHT}/${most}`),
  ];
}
interface Extreme {
  readonly range: string;
  readonly ambient: string;
}

/** C = mean white · drift ÷ mean black; black is measured apart from white and takes no part in its drift. */
export function contrastLines({ repeats, colour }: RunSetup): Line[] {
  const [C, B] = ['SequentialContrastPlain', 'AVERAGE(BlackNet)'];
  return [
    gain('0'),
    linearity('White', `${gross('White')}/${B}`),
    linearity('Black', `0-${C}*${gross('Black')}/${B}`),
    digits(`SQRT(SUMPRODUCT((DigitsWhite-${C}*DigitsBlack)^2))/${B}`),
    display(`SQRT(${rounding('White')}+${C}^2*${rounding('Black')})/9/${B}`),
    scatter('White', repeats, `1/3/SQRT(${repeats})/${B}`),
    scatter('Black', 1, `0-${C}/3/${B}`),
    placing(`SQRT(${squares('White')}+${C}^2*${squares('Black')})/9/${B}`),
    mixture(colour !== 'none', C),
    mismatch('Black', `0-${C}`),
    ambient(`(${C}-1)*${LIGHT}/${B}`),
    drift(C, ', white'),
  ];
}

/** C = mean of 8 white tiles ÷ mean of 8 black ones, read in one go and in one range: the drift cancels. */
export function boardLines({ colour }: RunSetup): Line[] {
  const [C, B] = ['BoardContrastPlain', '(BoardBlack-AmbientMean)'];
  const tiles = (kind: 'White' | 'Black', sensitivity: string): Line => ({
    label: `Repeatability, ${kind.toLowerCase()} tiles`,
    half: `Board${kind}Scatter`,
    unit: 'lx',
    kind: 'normal',
    sensitivity,
    dof: DOF_KNOWN,
  });
  return [
    gain('0'),
    digits(`(1-${C})/${B}*SQRT(SUMSQ(DigitsBoard))`),
    display(`BoardRange*WhiteCorrection*SQRT((1+${C}^2)/8)/${B}`),
    tiles('White', `1/SQRT(8)/${B}`),
    tiles('Black', `0-${C}/SQRT(8)/${B}`),
    placing(`SQRT(BoardWhiteScatter^2+${C}^2*BoardBlackScatter^2)/RepeatPartUsed/SQRT(8)/${B}`),
    mixture(colour !== 'none', C),
    mismatch('Black', `0-${C}`),
    ambient(`(${C}-1)*${LIGHT}/${B}`),
  ];
}
