import type { BorderSide, CellStyle, Color, FontStyle } from 'hucre';
import { resolveThemeColor } from 'hucre/xlsx';
import type { Border, Style } from '../sheets/book';
import { FONT } from '../sheets/style';

/** The font of an unstyled cell, and of any style that names no other. */
export const DEFAULT_FONT: FontStyle = { ...FONT };

const SIDES = {
  box: ['top', 'right', 'bottom', 'left'],
  bottom: ['bottom'],
  top: ['top'],
} as const;

/** `#E4E7EB` → the library's colour. */
export function storeColour(colour: string): Color {
  return { rgb: colour.replace('#', '').toUpperCase() };
}

/**
 * A stored colour → `#RRGGBB`, theme colours looked up. The file counts the theme's light and dark pairs the
 * other way round than the theme lists them (0 is light 1), which the library does not know.
 */
export function showColour(colour: Color | undefined, theme: readonly string[]): string | undefined {
  if (colour?.rgb !== undefined) return `#${colour.rgb.slice(-6).toUpperCase()}`;
  if (colour?.theme === undefined || theme.length < 12) return undefined;
  const index = colour.theme < 4 ? colour.theme ^ 1 : colour.theme;
  return `#${resolveThemeColor([...theme], index, colour.tint)}`;
}

export function storeStyle(style: Style): CellStyle {
  const { format, fill, color, bold, italic, size, align, vertical, wrap, border, locked } = style;
  const hasFont = color !== undefined || bold || italic || size !== undefined;
  const hasAlignment = align !== undefined || vertical !== undefined || wrap;
  return {
    ...(format === undefined ? {} : { numFmt: format }),
    ...(fill === undefined
      ? {}
      : {
          fill: {
            type: 'pattern',
            pattern: 'solid',
            fgColor: storeColour(fill),
            bgColor: { indexed: 64 },
          },
        }),
    ...(hasFont
      ? {
          font: {
            ...DEFAULT_FONT,
            ...(size === undefined ? {} : { size }),
            ...(bold ? { bold } : {}),
            ...(italic ? { italic } : {}),
            ...(color === undefined ? {} : { color: storeColour(color) }),
          },
        }
      : {}),
    ...(hasAlignment
      ? {
          alignment: {
            ...(align === undefined ? {} : { horizontal: align }),
            ...(vertical === undefined ? {} : { vertical }),
            ...(wrap ? { wrapText: true } : {}),
          },
        }
      : {}),
    ...(border === undefined ? {} : { border: storeBorder(border) }),
    ...(locked === undefined ? {} : { protection: { locked } }),
  };
}

function storeBorder({ color, weight, sides }: Border): NonNullable<CellStyle['border']> {
  return Object.fromEntries(SIDES[sides].map((side) => [side, { style: weight, color: storeColour(color) }]));
}

/** The file's style → what a Book keeps of it; nothing kept gives undefined. The size of our font is left out. */
export function showStyle(style: CellStyle | undefined, theme: readonly string[]): Style | undefined {
  if (!style) return undefined;
  const { numFmt, fill, font, alignment, border, protection } = style;
  const fillColour =
    fill?.type === 'pattern' && fill.pattern === 'solid' ? showColour(fill.fgColor, theme) : undefined;
  // Theme colour 1 is the text colour of the workbook, which is what an unset colour means.
  const colour = font?.color?.theme === 1 ? undefined : showColour(font?.color, theme);
  const shownBorder = border && showBorder(border, theme);
  const align = alignment?.horizontal;
  const vertical = alignment?.vertical;
  const shown: Style = {
    ...(numFmt === undefined ? {} : { format: numFmt }),
    ...(fillColour === undefined ? {} : { fill: fillColour }),
    ...(colour === undefined ? {} : { color: colour }),
    ...(font?.bold ? { bold: true } : {}),
    ...(font?.italic ? { italic: true } : {}),
    ...(font?.size === undefined || font.size === FONT.size ? {} : { size: font.size }),
    ...(align === 'left' || align === 'center' || align === 'right' ? { align } : {}),
    ...(vertical === 'top' || vertical === 'center' || vertical === 'bottom' ? { vertical } : {}),
    ...(alignment?.wrapText ? { wrap: true } : {}),
    ...(shownBorder === undefined ? {} : { border: shownBorder }),
    ...(protection?.locked === undefined ? {} : { locked: protection.locked }),
  };
  return Object.keys(shown).length > 0 ? shown : undefined;
}

function showBorder(border: NonNullable<CellStyle['border']>, theme: readonly string[]): Border | undefined {
  const { top, bottom, left, right } = border;
  const side: BorderSide | undefined = bottom ?? top ?? left ?? right;
  if (!side) return undefined;
  return {
    color: showColour(side.color, theme) ?? '#000000',
    weight: side.style === 'thin' || side.style === 'hair' || side.style === 'dotted' ? 'thin' : 'medium',
    sides: top && bottom && left && right ? 'box' : bottom ? 'bottom' : top ? 'top' : 'box',
  };
}
