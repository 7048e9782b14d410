import type { Size } from '../../src/fields/mark';
import type { Surface } from '../../src/fields/surface';
import { watchRatio } from './stage';

export interface Drawn {
  readonly drawn: Size;
  readonly isCounted: boolean;
  readonly isKeptAwake: boolean;
}

const MEDIA = {
  fullScreen: '(display-mode: fullscreen)',
  wideGamut: '(color-gamut: p3)',
  highDynamicRange: '(dynamic-range: high)',
} as const;

/** What the browser says about this window now. */
export function readSurface({ drawn, isCounted, isKeptAwake }: Drawn): Surface {
  const is = (query: string) => matchMedia(query).matches;
  return {
    drawn,
    isCounted,
    dpr: devicePixelRatio,
    inner: { width: innerWidth, height: innerHeight },
    outer: { width: outerWidth, height: outerHeight },
    screen: { width: screen.width, height: screen.height },
    // The browser's own full screen (F11) has no element, but the display mode tells.
    isFullScreen: document.fullscreenElement !== null || is(MEDIA.fullScreen),
    pinch: visualViewport?.scale ?? 1,
    isVisible: document.visibilityState === 'visible',
    isWideGamut: is(MEDIA.wideGamut),
    isHighDynamicRange: is(MEDIA.highDynamicRange),
    isKeptAwake,
  };
}

/** Calls back whenever `readSurface` may say something else. */
export function watchSurface(onChange: () => void): () => void {
  const queries = Object.values(MEDIA).map((query) => matchMedia(query));
  for (const query of queries) query.addEventListener('change', onChange);
  addEventListener('resize', onChange);
  visualViewport?.addEventListener('resize', onChange);
  document.addEventListener('fullscreenchange', onChange);
  document.addEventListener('visibilitychange', onChange);
  const stopRatio = watchRatio(onChange);
  return () => {
    for (const query of queries) query.removeEventListener('change', onChange);
    removeEventListener('resize', onChange);
    visualViewport?.removeEventListener('resize', onChange);
    document.removeEventListener('fullscreenchange', onChange);
    document.removeEventListener('visibilitychange', onChange);
    stopRatio();
  };
}
