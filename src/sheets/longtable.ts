import { type Rect, rectOf } from './address';

/** Where a table of several blocks stands, one below another; undefined where there is none. */
export function tableRect(blocks: readonly string[] = []): Rect | undefined {
  const [first, ...others] = blocks.map(rectOf);
  return first && { ...first, rows: others.reduce((rows, block) => rows + block.rows, first.rows) };
}
