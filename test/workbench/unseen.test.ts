import { INTERCEPTOR_POINT } from '@univerjs/sheets';
import { expect, it } from 'vitest';
import { drawNothingUnseen } from '../../src/workbench/engine/unseen';

/* ECMA-376-1, 18.8.31: of four sections the last is for texts; an empty one shows nothing. */
type Handler = (cell: unknown, location: unknown, next: (cell: unknown) => unknown) => unknown;

it.each([
  [';;;', 'remarks', ''],
  ['0.0', 'remarks', 'remarks'],
  // The engine heeds the sections for numbers itself.
  [';;;', 12, 12],
])('with the format %s, %s is drawn as “%s”', (pattern, v, drawn) => {
  let draw: Handler | undefined;
  drawNothingUnseen(
    { intercept: (_, { handler }: { handler: Handler }) => (draw = handler) },
    INTERCEPTOR_POINT.CELL_CONTENT,
  );
  const location = { workbook: { getStyles: () => ({ get: () => ({ n: { pattern } }) }) } };
  expect(draw!({ s: 'style', v }, location, (cell) => cell)).toMatchObject({ v: drawn });
});
