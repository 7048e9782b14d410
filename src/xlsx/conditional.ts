import type { ConditionalRule } from 'hucre';
import type { Alert, BookSheet, ColourScale } from '../sheets/book';
import { areasOf } from './areas';
import { showColour, storeColour } from './style';

/** Colour scales and alerts of a sheet → conditional formats, in order of precedence. */
export function storeConditionals({
  scales,
  alerts,
}: Pick<BookSheet, 'scales' | 'alerts'>): ConditionalRule[] {
  return [...alerts.map(storeAlert), ...scales.map(storeScale)].map((rule, at) => ({
    ...rule,
    priority: at + 1,
  }));
}

function storeScale({ range, low, middle, high }: ColourScale): Omit<ConditionalRule, 'priority'> {
  const argb = (colour: string) => `FF${storeColour(colour).rgb}`;
  return {
    type: 'colorScale',
    range,
    colorScale: middle
      ? {
          cfvo: [{ type: 'min' }, { type: 'percentile', value: '50' }, { type: 'max' }],
          colors: [argb(low), argb(middle), argb(high)],
        }
      : { cfvo: [{ type: 'min' }, { type: 'max' }], colors: [argb(low), argb(high)] },
  };
}

function storeAlert({ range, begins, fill, color }: Alert): Omit<ConditionalRule, 'priority'> {
  const first = range.split(':')[0]!;
  const literal = `"${begins.replace(/"/g, '""')}"`;
  return {
    type: 'beginsWith',
    range,
    text: begins,
    // The file wants the operator a second time (ECMA-376-1, 18.18.15); the library's type does not know it.
    operator: 'beginsWith' as unknown as NonNullable<ConditionalRule['operator']>,
    formula: `LEFT(${first},LEN(${literal}))=${literal}`,
    style: {
      font: { color: storeColour(color) },
      // A differential format takes a solid fill's colour from the background, unlike a cell's own format.
      fill: {
        type: 'pattern',
        pattern: 'solid',
        fgColor: storeColour(fill),
        bgColor: storeColour(fill),
      },
    },
  };
}

/**
 * Conditional formats of a sheet → what a Book keeps; kinds that it cannot say are left out.
 * @throws XlsxError `damaged` for areas that are none
 */
export function showConditionals(
  rules: readonly ConditionalRule[],
  theme: readonly string[],
  sheet: string,
): Pick<BookSheet, 'scales' | 'alerts'> {
  const scales: ColourScale[] = [];
  const alerts: Alert[] = [];
  for (const rule of [...rules].sort((a, b) => a.priority - b.priority)) {
    for (const range of areasOf(rule.range, `a conditional format of its sheet “${sheet}”`)) {
      const colours = (rule.colorScale?.colors ?? []).map((rgb) => showColour({ rgb }, theme));
      const [low, middle, high] = colours.length === 2 ? [colours[0], undefined, colours[1]] : colours;
      if (rule.type === 'colorScale' && low && high) {
        scales.push({ range, low, ...(middle ? { middle } : {}), high });
      }
      const fill = rule.style?.fill?.type === 'pattern' ? rule.style.fill : undefined;
      const shownFill = showColour(fill?.bgColor ?? fill?.fgColor, theme);
      const color = showColour(rule.style?.font?.color, theme);
      if (rule.type === 'beginsWith' && rule.text !== undefined && shownFill && color) {
        alerts.push({ range, begins: rule.text, fill: shownFill, color });
      }
    }
  }
  return { scales, alerts };
}
