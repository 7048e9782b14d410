import { notAboveZero, notAtLeastZero, notFinite } from '../../metrology/check';
import { invalid, type Problem } from '../../photometry/outcome';
import { notPart } from '../check';

/** A room and what is wanted in it. */
export interface NeedInput {
  /** Image area, m². */
  readonly area: number;
  /** Screen gain: luminance factor in the direction of the viewers. */
  readonly gain: number;
  /** Illuminance of the room's own light on the screen, projector dark, lx. */
  readonly ambient: number;
  /** Wanted contrast on the screen, to 1; left out where only a luminance is wanted. */
  readonly contrast?: number;
  /** The projector's own contrast in a dark room, to 1; left out where it is not known: taken as unlimited. */
  readonly ownContrast?: number;
  /** Wanted luminance of screen white from the projector, cd/m². */
  readonly luminance?: number;
  /** What is left of the light at the end of the planned use, a part of 1. */
  readonly ageing?: number;
  /** What the mode in daily use gives of the mode the rated value is stated for, a part of 1. */
  readonly mode?: number;
  /** Colour light output asked for as a part of white light output; 1 unless said otherwise. */
  readonly colourPart?: number;
}

/** Problems of the input; whether the two wishes can be met is another matter. */
export function inputProblems(input: NeedInput): Problem[] {
  const { area, gain, ambient, contrast, ownContrast, luminance, ageing, mode, colourPart } = input;
  return [
    ...notAboveZero(area, 'image area'),
    ...notAboveZero(gain, 'screen gain'),
    ...notAtLeastZero(ambient, 'ambient illuminance'),
    ...(contrast === undefined ? [] : notAboveOne(contrast, 'wanted contrast')),
    ...(ownContrast === undefined ? [] : notAboveOne(ownContrast, 'projector’s own contrast')),
    ...(luminance === undefined ? [] : notAboveZero(luminance, 'wanted luminance')),
    ...(ageing === undefined ? [] : notPart(ageing, 'ageing reserve')),
    ...(mode === undefined ? [] : notPart(mode, 'mode reserve')),
    ...(colourPart === undefined ? [] : notPart(colourPart, 'colour part')),
  ];
}

/** A contrast of 1 is a screen without a picture. */
export function notAboveOne(value: number, where: string): Problem[] {
  const problems = notFinite(value, where);
  if (problems.length > 0 || value > 1) return problems;
  return [invalid('out-of-bounds', where, `The ${where} must be greater than 1; it is ${value}.`)];
}
