import { parseDate as readDate } from 'numfmt';

export * from 'numfmt';

/** Texts that are no dates; begun anew when there are many, so that they never fill the memory. */
let noDates = new Set<string>();
const MOST = 20_000;

/**
 * The library's `parseDate`, which stands in its place for the engine in the browser: that asks of each text in view,
 * some six times at every frame, whether it could be a date, which was a fifth of the time of drawing.
 */
export function parseDate(...asked: Parameters<typeof readDate>): ReturnType<typeof readDate> {
  const [text, options] = asked;
  if (options !== undefined || typeof text !== 'string') return readDate(...asked);
  if (noDates.has(text)) return null;
  const date = readDate(text);
  if (date === null) {
    if (noDates.size >= MOST) noDates = new Set();
    noDates.add(text);
  }
  return date;
}
