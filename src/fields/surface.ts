import type { Size } from './mark';
import { sizeText } from './size';

/** What a browser says about the window that the fields are drawn in. Lengths in CSS pixels unless said otherwise. */
export interface Surface {
  /** The field's size in device pixels. */
  readonly drawn: Size;
  /** Whether the browser counted the size in device pixels, rather than us multiplying and rounding. */
  readonly isCounted: boolean;
  /** Device pixels per CSS pixel: the system's scaling times the browser's zoom. */
  readonly dpr: number;
  /** The page, without the browser's bars. */
  readonly inner: Size;
  /** The window with its bars, and the screen it is on, both in the same unit; 0 where the browser does not tell. */
  readonly outer: Size;
  readonly screen: Size;
  readonly isFullScreen: boolean;
  /** Enlarged by two fingers: 1 when not. */
  readonly pinch: number;
  readonly isVisible: boolean;
  readonly isWideGamut: boolean;
  readonly isHighDynamicRange: boolean;
  /** Whether the system agreed not to dim or blank the screen meanwhile. */
  readonly isKeptAwake: boolean;
}

type FindingCode =
  | 'hidden'
  | 'not-full-screen'
  | 'not-covering'
  | 'zoomed'
  | 'fractional'
  | 'pinched'
  | 'rounded'
  | 'wide-gamut'
  | 'high-dynamic-range'
  | 'may-dim';

/** Something about the window that a measurement should not have. */
export interface SurfaceFinding {
  readonly code: FindingCode;
  /** What is wrong and what to do about it. */
  readonly text: string;
}

/** Of 1: browsers round their lengths to whole CSS pixels. */
const TOLERANCE = 0.01;

/** Whether the page reaches over the whole screen, with no bar of the browser or the system left. */
export function isCovering({ inner, outer, screen }: Surface): boolean {
  const reaches = (length: number, of: number) => length >= of * (1 - TOLERANCE);
  if (outer.width === 0 || outer.height === 0)
    return reaches(inner.width, screen.width) && reaches(inner.height, screen.height);
  // Window and screen are given alike whatever the zoom; page and window then differ by the zoom only.
  const hasNoBars = near(inner.width / outer.width, inner.height / outer.height);
  return reaches(outer.width, screen.width) && reaches(outer.height, screen.height) && hasNoBars;
}

/** The browser's zoom, or undefined where bars hide it. Firefox gives every length in zoomed pixels: 1 there. */
export function zoomOf(surface: Surface): number | undefined {
  if (!isCovering(surface) || surface.outer.width === 0) return undefined;
  return surface.outer.width / surface.inner.width;
}

/** Whether browser or system enlarge what a page draws. Our fields stay on device pixels all the same, except when pinched. */
export function isScaled(surface: Surface): boolean {
  return findingsOf(surface).some(({ code }) => SCALING.includes(code));
}
const SCALING: readonly FindingCode[] = ['zoomed', 'fractional', 'pinched', 'rounded'];

/** Everything that is not as it should be, the gravest first. */
export function findingsOf(surface: Surface): SurfaceFinding[] {
  const zoom = zoomOf(surface);
  const isZoomed = zoom !== undefined && !near(zoom, 1);
  const isFractional = Math.abs(surface.dpr - Math.round(surface.dpr)) > 0.001;
  const found: (SurfaceFinding | false)[] = [
    !surface.isVisible && {
      code: 'hidden',
      text: 'The window is hidden: bring it to the front on the projector’s screen.',
    },
    !near(surface.pinch, 1) && {
      code: 'pinched',
      text: `The page is enlarged ${factor(surface.pinch)} by a pinch, which blurs edges: pinch it back to its own size.`,
    },
    !surface.isFullScreen && {
      code: 'not-full-screen',
      text: 'Not full screen: the field covers a part of the image only. Put the window on the projector’s screen and make it full screen (F while a field is shown).',
    },
    surface.isFullScreen &&
      !isCovering(surface) && {
        code: 'not-covering',
        text: 'Full screen, but the page does not reach over the whole screen: close side bars and developer tools.',
      },
    isZoomed && {
      code: 'zoomed',
      text: `The browser’s zoom is ${Math.round(zoom * 100)} %: set it to 100 % (Ctrl+0, on a Mac Cmd+0).`,
    },
    !isZoomed &&
      isFractional && {
        code: 'fractional',
        text: `Browser or system scale this screen by ${factor(surface.dpr)}. The fields are still drawn on its own pixels, ${sizeText(surface.drawn)}; set both to 100 % if that is not the projector’s resolution.`,
      },
    isFractional &&
      !surface.isCounted && {
        code: 'rounded',
        text: 'This browser does not tell its size in device pixels, and at this scaling an edge may be blended: set the scaling to 100 %, or use another browser.',
      },
    surface.isWideGamut && {
      code: 'wide-gamut',
      text: 'The computer takes this screen for a wide-gamut one, so red, green and blue reach it mixed: set its colour profile to sRGB, and switch automatic colour management off.',
    },
    surface.isHighDynamicRange && {
      code: 'high-dynamic-range',
      text: 'High dynamic range is on for this screen, so white is not the projector’s full white: switch it off.',
    },
    !surface.isKeptAwake && {
      code: 'may-dim',
      text: 'The computer may dim or blank the screen: switch screen saver and power saving off.',
    },
  ];
  return found.filter((finding): finding is SurfaceFinding => finding !== false);
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= TOLERANCE * b;
}

function factor(value: number): string {
  return String(Number(value.toFixed(3)));
}
