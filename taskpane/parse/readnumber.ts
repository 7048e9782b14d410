import type { DecimalMark } from './number';
import { type Expectation, quantity } from './quantity';

/** Two readings of one number; the person says which. */
interface DecimalQuestion {
  readonly message: string;
  readonly point: number;
  readonly comma: number;
}

/** What became of a number field. Nothing in it at all where the field was empty. */
export interface ReadNumber {
  readonly value?: number;
  /** How the text was understood, where that needed understanding. */
  readonly echo?: string;
  readonly problem?: string;
  readonly question?: DecimalQuestion;
  /** The number in the unit that was typed, where it is clear and the field takes another unit. */
  readonly otherUnit?: { readonly value: number; readonly unit: string };
}

/** Reads one number field with the pane's own parser. */
export function readNumber(text: string, expected: Expectation, mark?: DecimalMark): ReadNumber {
  const found = quantity(text, expected, mark);
  switch (found.state) {
    case 'blank':
      return {};
    case 'value':
      return { value: found.value, ...(found.echo ? { echo: `Understood as ${found.echo}.` } : {}) };
    case 'ask':
      return { question: { message: found.message, point: found.point, comma: found.comma } };
    case 'other unit':
      return { problem: found.message, otherUnit: { value: found.value, unit: found.unit } };
    case 'refused':
      return { problem: found.message };
  }
}
