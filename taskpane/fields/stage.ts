import { hex, type Mark, type Size } from '../../src/fields/mark';

/** A canvas that has one pixel for each device pixel it covers. */
export interface Stage {
  /** Draws now, and again whenever the size changes. */
  draw(marksOf: (size: Size) => readonly Mark[]): void;
  size(): Size;
  /** Whether the browser tells sizes in device pixels. */
  readonly isMeasured: boolean;
  stop(): void;
}

/**
 * @param canvas fills the window by its style sheet
 * @param onSize told after each change of the size in device pixels
 */
export function createStage(canvas: HTMLCanvasElement, onSize: () => void): Stage {
  const context = openContext(canvas);
  let marksOf: (size: Size) => readonly Mark[] = () => [];
  const paint = () => paintMarks(context, marksOf({ width: canvas.width, height: canvas.height }));
  const resize = ({ width, height }: Size) => {
    if (canvas.width === width && canvas.height === height) return;
    // Setting a size clears the canvas, so the field is drawn again in the same frame.
    canvas.width = width;
    canvas.height = height;
    paint();
    onSize();
  };
  const isMeasured = 'devicePixelContentBoxSize' in ResizeObserverEntry.prototype;
  const stop = isMeasured ? watchPixels(canvas, resize) : watchRounded(canvas, resize);
  return {
    draw: (next) => {
      marksOf = next;
      paint();
    },
    size: () => ({ width: canvas.width, height: canvas.height }),
    isMeasured,
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

/** The browser's own count of device pixels, right at any zoom. */
function watchPixels(canvas: HTMLCanvasElement, resize: (size: Size) => void): () => void {
  const observer = new ResizeObserver((entries) => {
    const box = entries.at(-1)?.devicePixelContentBoxSize[0];
    if (box) resize({ width: box.inlineSize, height: box.blockSize });
  });
  observer.observe(canvas, { box: 'device-pixel-content-box' });
  return () => observer.disconnect();
}

/** CSS pixels times the ratio, rounded: exact at whole ratios. A change of the ratio alone resizes nothing, so it is watched too. */
function watchRounded(canvas: HTMLCanvasElement, resize: (size: Size) => void): () => void {
  const measure = () => {
    const { width, height } = canvas.getBoundingClientRect();
    resize({ width: Math.round(width * devicePixelRatio), height: Math.round(height * devicePixelRatio) });
  };
  const observer = new ResizeObserver(measure);
  observer.observe(canvas);
  const stopRatio = watchRatio(measure);
  return () => {
    observer.disconnect();
    stopRatio();
  };
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
