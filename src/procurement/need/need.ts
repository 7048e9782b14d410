import { luminance as luminanceOf } from '../../photometry/luminance';
import { bad, good, invalid, missing, type Outcome } from '../../photometry/outcome';
import { illuminanceForContrast, illuminanceForLuminance } from './illuminance';
import { inputProblems, type NeedInput } from './input';
import { contrastReached } from './reached';

/** Which of the two wishes asks for more light. */
export type Governs = 'contrast' | 'luminance' | 'both alike';

/** What a screen shows with a given light on it. */
interface OnScreen {
  /** From the projector alone, lx. */
  readonly illuminance: number;
  /** White from the projector alone, cd/m². */
  readonly luminance: number;
  /** With the ambient light, to 1; not defined in full darkness with an unknown own contrast. */
  readonly contrast?: number;
}

/** What to ask for. */
export interface Need {
  /** Illuminance that each wish alone asks for, lx; not there where the wish was not stated. */
  readonly forContrast?: number;
  readonly forLuminance?: number;
  readonly governs: Governs;
  /** Light output to ask for, lm: with both reserves. */
  readonly white: number;
  readonly colour: number;
  /** On the screen at the end of the planned use in the daily mode, and when new in the rated mode. */
  readonly atEnd: OnScreen;
  readonly whenNew: OnScreen;
}

/** The largest of several needs, lm, white and colour each by itself; undefined where there are none. */
export function largestOf(needs: readonly Need[]): { white: number; colour: number } | undefined {
  if (needs.length === 0) return undefined;
  return {
    white: Math.max(...needs.map(({ white }) => white)),
    colour: Math.max(...needs.map(({ colour }) => colour)),
  };
}

/**
 * Light output to ask for: the larger of the two illuminances times the image area, divided by the reserves, so
 * that an aged unit in its daily mode still meets both wishes. Formulas: see `illuminance.ts`; reserves: common
 * practice. A unit measured at less than its rated value is a matter of acceptance, not of the reserves.
 */
export function need(input: NeedInput): Outcome<Need> {
  const problems = inputProblems(input);
  if (input.contrast === undefined && input.luminance === undefined) {
    problems.push(missing('wish', 'State a wanted contrast, a wanted luminance or both.'));
  }
  if (problems.length > 0) return bad(...problems);
  const {
    area,
    gain,
    ambient,
    contrast,
    ownContrast,
    luminance,
    ageing = 1,
    mode = 1,
    colourPart = 1,
  } = input;
  const byContrast =
    contrast === undefined ? good(undefined) : illuminanceForContrast(contrast, ambient, ownContrast);
  if (!byContrast.ok) return byContrast;
  const forContrast = byContrast.value;
  const forLuminance = luminance === undefined ? undefined : illuminanceForLuminance(luminance, gain);
  const atEnd = Math.max(forContrast ?? 0, forLuminance ?? 0);
  if (atEnd === 0) {
    return bad(
      invalid(
        'not-defined',
        'need',
        'In full darkness any light output reaches the contrast: state a wanted luminance as well.',
      ),
    );
  }
  const whenNew = atEnd / (ageing * mode);
  const white = whenNew * area;
  return good({
    ...(forContrast === undefined ? {} : { forContrast }),
    ...(forLuminance === undefined ? {} : { forLuminance }),
    governs: governing(forContrast ?? 0, forLuminance ?? 0),
    white,
    colour: white * colourPart,
    atEnd: onScreen(atEnd, input),
    whenNew: onScreen(whenNew, input),
  });
}

function governing(forContrast: number, forLuminance: number): Governs {
  if (forContrast === forLuminance) return 'both alike';
  return forContrast > forLuminance ? 'contrast' : 'luminance';
}

function onScreen(illuminance: number, { gain, ambient, ownContrast }: NeedInput): OnScreen {
  const contrast = contrastReached(illuminance, 1, ambient, ownContrast);
  return {
    illuminance,
    luminance: luminanceOf(illuminance, gain),
    ...(contrast.ok ? { contrast: contrast.value } : {}),
  };
}
