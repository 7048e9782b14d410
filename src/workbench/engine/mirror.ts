import type { IRange } from '@univerjs/core';
import { rangeOf } from './port';
import type { ConditionalItem, ScaleCriterion } from './rules';
import type { Sheet } from './sheet';
import { choicesOf } from './validity';

/** The part of the conditional-format plug-in's facade used here; the plug-in is there only with a screen. */
interface FormatBuilder {
  setRanges(ranges: IRange[]): FormatBuilder;
  build(): unknown;
  setColorScale(
    config: { index: number; color: string; value: { type: string; value?: number } }[],
  ): FormatBuilder;
  whenTextStartsWith(text: string): FormatBuilder;
  whenTextEndsWith(text: string): FormatBuilder;
  whenTextContains(text: string): FormatBuilder;
  whenTextDoesNotContain(text: string): FormatBuilder;
  setBackground(colour: string): FormatBuilder;
  setFontColor(colour: string): FormatBuilder;
  setBold(on: boolean): FormatBuilder;
}
interface WithFormats {
  clearConditionalFormatRules(): unknown;
  newConditionalFormattingRule(): FormatBuilder;
  addConditionalFormattingRule(rule: unknown): unknown;
}

/** The data-validation plug-in's facade, likewise. */
interface ListBuilder {
  requireValueInList(values: string[], multiple: boolean, showDropdown: boolean): ListBuilder;
  setAllowInvalid(allowed: boolean): ListBuilder;
  build(): unknown;
}
interface WithLists {
  newDataValidation(): ListBuilder;
}
interface ListRange {
  setDataValidation(rule: unknown): unknown;
}

/**
 * Shows conditional formats and the drop-down lists of validations to a person. They are drawn anew a moment
 * after the last change; the workbook itself does not depend on them, and without a screen nothing is done.
 */
export class Mirror {
  readonly #due = new Set<Sheet>();
  readonly #lists = new WeakMap<Sheet, IRange[]>();

  schedule(sheet: Sheet): void {
    if (!('newConditionalFormattingRule' in sheet.shown)) return;
    if (this.#due.size === 0) queueMicrotask(() => this.#draw());
    this.#due.add(sheet);
  }

  #draw(): void {
    const sheets = [...this.#due];
    this.#due.clear();
    for (const sheet of sheets) {
      if (!sheet.engine.sheetById(sheet.id)) continue;
      sheet.engine.port.ours(() => {
        drawFormats(sheet);
        this.#drawLists(sheet);
      });
    }
  }

  #drawLists(sheet: Sheet): void {
    const api = sheet.engine.api as unknown as WithLists;
    const rangeAt = (range: IRange) => sheet.shown.getRange(range) as unknown as ListRange;
    for (const range of this.#lists.get(sheet) ?? []) rangeAt(range).setDataValidation(null);
    const drawn: IRange[] = [];
    for (const { range, rule } of sheet.validations) {
      if (!rule.list?.inCellDropDown) continue;
      // The refusal is ours (guard.ts); the engine only offers the choices.
      const list = api
        .newDataValidation()
        .requireValueInList(choicesOf(rule.list.source, sheet), false, true);
      rangeAt(rangeOf(range)).setDataValidation(list.setAllowInvalid(true).build());
      drawn.push(rangeOf(range));
    }
    this.#lists.set(sheet, drawn);
  }
}

function drawFormats(sheet: Sheet): void {
  const shown = sheet.shown as unknown as WithFormats;
  shown.clearConditionalFormatRules();
  for (const item of sheet.formats) {
    const builder = condition(shown.newConditionalFormattingRule(), item);
    if (!builder) continue;
    const { fill, color, bold } = item.look;
    if (fill) builder.setBackground(fill);
    if (color) builder.setFontColor(color);
    if (bold) builder.setBold(true);
    shown.addConditionalFormattingRule(builder.setRanges([rangeOf(item.range)]).build());
  }
}

/** A rule that is not complete yet is not drawn. */
function condition(builder: FormatBuilder, item: ConditionalItem): FormatBuilder | undefined {
  if (item.scale) {
    const { minimum, midpoint, maximum } = item.scale;
    const stops = [minimum, ...(midpoint ? [midpoint] : []), maximum];
    return builder.setColorScale(
      stops.map((stop, index) => ({ index, color: stop.color ?? '#FFFFFF', value: stopValue(stop) })),
    );
  }
  if (item.text) {
    const { operator, text } = item.text;
    if (operator === 'BeginsWith') return builder.whenTextStartsWith(text);
    if (operator === 'EndsWith') return builder.whenTextEndsWith(text);
    return operator === 'Contains' ? builder.whenTextContains(text) : builder.whenTextDoesNotContain(text);
  }
  return undefined;
}

function stopValue({ type, formula }: ScaleCriterion): { type: string; value?: number } {
  const value = Number(String(formula ?? '').replace(/^=/, ''));
  switch (type) {
    case 'LowestValue':
      return { type: 'min' };
    case 'HighestValue':
      return { type: 'max' };
    case 'Percent':
      return { type: 'percent', value };
    case 'Percentile':
      return { type: 'percentile', value };
    default:
      return { type: 'num', value };
  }
}
