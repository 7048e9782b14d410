import { parseAspect } from '../../src/photometry/image';

/** An aspect ratio as people type it: "16:10", "1,78:1", "1920x1080". */
export function aspectOf(text: string): ReturnType<typeof parseAspect> {
  return parseAspect(text.replace(/(\d),(\d)/g, '$1.$2'));
}
