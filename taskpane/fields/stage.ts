import { hex, type Mark, type Size } from '../../src/fields/mark';

/** A canvas that has one pixel for each device pixel it covers. */
export interface Stage {
  /** Draws now, and again whenever the size changes. */
  draw(marksOf: (size: Size) => readonly Mark[]): void;
  size(): Size;
  /** Whether the browser counted its size in device pixels, rather than us multiplying and rounding. */
  isCounted(): boolean;
  stop(): void;
}

/**
 * @param canvas fills the window by its style sheet
 * @param onSize told after each look at the size in device pixels
 */
export function createStage(canvas: HTMLCanvasElement, onSize: () => void): Stage {
  const context = openContext(canvas);
  let marksOf: (size: Size) => readonly Mark[] = () => [];
  const paint = () => paintMarks(context, marksOf({ width: canvas.width, height: canvas.height }));
  let isCounted = false;
  const stop = watchPixels(canvas, (measured) => {
    const { width, height } = measured.size;
    isCounted = measured.isCounted;
    if (canvas.width !== width || canvas.height !== height) {
      // Setting a size clears the canvas, so the field is drawn again in the same frame.
      canvas.width = width;
      canvas.height = height;
      paint();
    }
    onSize();
  });
  return {
    draw: (next) => {
      marksOf = next;
      paint();
    },
    size: () => ({ width: canvas.width, height: canvas.height }),
    isCounted: () => isCounted,
    stop,
  };
}

/** Without transparency; colours in sRGB. Throws if the browser gives no canvas. */
export function openContext(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  const context = canvas.getContext('2d', { alpha: false, colorSpace: 'srgb' });
  if (!context) throw new Error('This browser gives no canvas to draw on.');
  return context;
}

export function paintMarks(context: CanvasRenderingContext2D, marks: readonly Mark[]): void {
  context.imageSmoothingEnabled = false;
  for (const { x, y, width, height, colour } of marks) {
    context.fillStyle = hex(colour);
    context.fillRect(x, y, width, height);
  }
}

/** A size in device pixels. */
interface Measured {
  readonly size: Size;
  /** Counted by the browser, rather than multiplied and rounded by us. */
  readonly isCounted: boolean;
}

/**
 * Follows an element's size in device pixels. Chromium and Firefox count them (`device-pixel-content-box`);
 * elsewhere it is CSS pixels times the ratio, which is exact at whole ratios only. A change of the ratio alone
 * resizes nothing, so it is watched too.
 */
function watchPixels(element: Element, onMeasure: (measured: Measured) => void): () => void {
  let counted: Size | undefined;
  const measure = () => {
    const { width, height } = element.getBoundingClientRect();
    const exact = { width: width * devicePixelRatio, height: height * devicePixelRatio };
    // While a browser's device mode emulates a ratio, Chromium counts as if there were none.
    const isCounted = counted !== undefined && isWithinPixel(counted, exact);
    onMeasure({
      size: isCounted ? counted! : { width: Math.round(exact.width), height: Math.round(exact.height) },
      isCounted,
    });
  };
  const observer = new ResizeObserver((entries) => {
    const box = entries.at(-1)?.devicePixelContentBoxSize?.[0];
    counted = box && { width: box.inlineSize, height: box.blockSize };
    measure();
  });
  const canCount = 'devicePixelContentBoxSize' in ResizeObserverEntry.prototype;
  observer.observe(element, { box: canCount ? 'device-pixel-content-box' : 'content-box' });
  const stopRatio = watchRatio(measure);
  return () => {
    observer.disconnect();
    stopRatio();
  };
}

function isWithinPixel(a: Size, b: Size): boolean {
  return Math.abs(a.width - b.width) <= 1 && Math.abs(a.height - b.height) <= 1;
}

/** Calls back when the device pixel ratio changes: by zoom, by the system, or on another screen. */
export function watchRatio(onChange: () => void): () => void {
  let query: MediaQueryList;
  const listen = () => {
    watch();
    onChange();
  };
  const watch = () => {
    query?.removeEventListener('change', listen);
    query = matchMedia(`(resolution: ${devicePixelRatio}dppx)`);
    query.addEventListener('change', listen);
  };
  watch();
  return () => query.removeEventListener('change', listen);
}
