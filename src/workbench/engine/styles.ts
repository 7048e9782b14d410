import type { IBorderData, IStyleData } from '@univerjs/core';
import type { Border, Style } from '../../sheets/book';
import { FONT } from '../../sheets/style';

/** Codes of the engine (enums `HorizontalAlign`, `VerticalAlign`, `WrapStrategy`, `BorderStyleTypes` of @univerjs/core). */
const HORIZONTAL = { left: 1, center: 2, right: 3 } as const;
const VERTICAL = { top: 1, center: 2, bottom: 3 } as const;
const WRAP = 3;
const BORDER = { none: 0, thin: 1, medium: 8 } as const;
type Side = 't' | 'b' | 'l' | 'r';
const SIDES: Readonly<Record<Border['sides'], readonly Side[]>> = {
  box: ['t', 'b', 'l', 'r'],
  bottom: ['b'],
  top: ['t'],
};

/** A style of ours → the engine's. `locked` is kept elsewhere: the engine has no such style. */
export function toEngineStyle(style: Style): IStyleData {
  return {
    ...(style.format === undefined ? {} : { n: { pattern: style.format } }),
    ...(style.fill === undefined ? {} : { bg: { rgb: style.fill } }),
    ...(style.color === undefined ? {} : { cl: { rgb: style.color } }),
    ...(style.bold ? { bl: 1 } : {}),
    ...(style.italic ? { it: 1 } : {}),
    ...(style.size === undefined ? {} : { fs: style.size }),
    ...(style.align === undefined ? {} : { ht: HORIZONTAL[style.align] }),
    ...(style.vertical === undefined ? {} : { vt: VERTICAL[style.vertical] }),
    ...(style.wrap ? { tb: WRAP } : {}),
    ...(style.border ? { bd: toEngineBorder(style.border) } : {}),
  } as IStyleData;
}
function toEngineBorder({ color, weight, sides }: Border): IBorderData {
  const line = { s: BORDER[weight], cl: { rgb: color } };
  return Object.fromEntries(SIDES[sides].map((side) => [side, line])) as IBorderData;
}

/** The engine's style → ours: only what a `Book` can say. */
export function fromEngineStyle(style: IStyleData, isLocked: boolean): Style | undefined {
  const border = fromEngineBorder(style.bd);
  const found: Style = {
    ...(style.n?.pattern ? { format: style.n.pattern } : {}),
    ...(style.bg?.rgb ? { fill: colour(style.bg.rgb) } : {}),
    ...(style.cl?.rgb ? { color: colour(style.cl.rgb) } : {}),
    ...(style.bl ? { bold: true } : {}),
    ...(style.it ? { italic: true } : {}),
    // As of a file: a size that every cell of ours has says nothing.
    ...(style.fs && style.fs !== FONT.size ? { size: style.fs } : {}),
    ...named('align', HORIZONTAL, style.ht),
    ...named('vertical', VERTICAL, style.vt),
    ...(style.tb === WRAP ? { wrap: true } : {}),
    ...(border ? { border } : {}),
    ...(isLocked ? {} : { locked: false }),
  };
  return Object.keys(found).length > 0 ? found : undefined;
}
function named<K extends string>(key: string, codes: Readonly<Record<K, number>>, code: unknown): object {
  const name = Object.keys(codes).find((candidate) => codes[candidate as K] === code);
  return name ? { [key]: name } : {};
}
function fromEngineBorder(bd: IStyleData['bd']): Border | undefined {
  const drawn = (side: Side) => bd?.[side]?.s;
  const side = (['b', 't'] as const).find((candidate) => drawn(candidate));
  const line = side && bd?.[side];
  if (!line) return undefined;
  const isBox = drawn('t') && drawn('b') && drawn('l') && drawn('r');
  return {
    color: colour(line.cl?.rgb ?? '#000000'),
    weight: Number(line.s) === BORDER.thin ? 'thin' : 'medium',
    sides: isBox ? 'box' : side === 'b' ? 'bottom' : 'top',
  };
}

/** `#abc`, `#AABBCC`, `rgb(1,2,3)` → `#RRGGBB`; other colour words are passed on as they are. */
export function colour(text: string): string {
  const short = /^#([0-9a-f])([0-9a-f])([0-9a-f])$/i.exec(text);
  if (short) return `#${short[1]}${short[1]}${short[2]}${short[2]}${short[3]}${short[3]}`.toUpperCase();
  const rgb = /^rgba?\(\s*(\d+)\s*,\s*(\d+)\s*,\s*(\d+)/.exec(text);
  if (rgb)
    return `#${rgb
      .slice(1, 4)
      .map((part) => Number(part).toString(16).padStart(2, '0'))
      .join('')}`.toUpperCase();
  return text.startsWith('#') ? text.toUpperCase() : text;
}
