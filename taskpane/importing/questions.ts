import type { Question } from '../parse/block';
import { shown } from '../parse/quantity';

/** A number of an import that can be read in two ways: one answer holds for all of them. */
export function markQuestion(
  number: { readonly text: string; readonly point: number; readonly comma: number },
  line: number,
  what: string,
): Question {
  const [point, comma] = [shown(number.point), shown(number.comma)];
  return {
    asks: 'mark',
    message: `“${number.text}” in line ${line} can mean ${point} or ${comma}. Which mark do the decimals of this ${what} have?`,
    answers: [
      { label: `${point}: the point is the decimal mark`, decision: { mark: 'point' } },
      { label: `${comma}: the comma is the decimal mark`, decision: { mark: 'comma' } },
    ],
  };
}
