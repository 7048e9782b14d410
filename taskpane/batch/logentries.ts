import { NINE, SINGLE } from '../../src/photometry/reading';
import { type BatchField, pointsOf } from '../../src/procurement/batch/columns';
import { loneOnesIn } from '../parse/block';
import { type Entry, readCell } from '../parse/cell';
import type { DecimalMark } from '../parse/number';
import type { Decisions } from '../parse/target';
import type { LogBatch } from './logrow';

/** Readings field by field, as many of each as the batch has points. `at` says where the reading stands. */
export function readEntries(
  texts: readonly string[],
  fields: readonly BatchField[],
  batch: LogBatch,
  decisions: Decisions,
  mark: DecimalMark | undefined,
  at: (index: number) => string,
): Entry[] {
  const points = pointsOf(batch.readings);
  const shape = points === 1 ? SINGLE : NINE;
  return fields.flatMap((field, f) => {
    const own = texts.slice(f * points, (f + 1) * points);
    const lone = loneOnesIn(own, mark);
    const target = { label: field, shape, zero: 'missing' } as const;
    return own.map((text, index) =>
      readCell(text, {
        target,
        index,
        unit: batch.unit,
        mark,
        isLoneOne: lone.has(index),
        ones: decisions.ones,
        at: at(f * points + index),
      }),
    );
  });
}
