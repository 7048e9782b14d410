import { cellsOf } from '../../../src/sheets/address';
import type { FieldProgress } from '../progress';
import own from './FieldMap.module.css';

const STEP = 8;
const SIZE = 6;

/** A field's readings as they lie on the screen: filled where taken, hollow where missing, crossed where over range. */
export function FieldMap({ progress, cells }: { readonly progress: FieldProgress; readonly cells: string }) {
  const { shape } = progress.field;
  const kinds = new Map<string, string>();
  for (const { cell } of progress.missing) kinds.set(cell, 'missing');
  for (const { cell } of progress.over) kinds.set(cell, 'over');
  for (const { place } of progress.wrong) kinds.set(place.cell, 'over');
  return (
    <svg
      class={own.map}
      viewBox={`0 0 ${shape.columns * STEP} ${shape.rows * STEP}`}
      width={shape.columns * STEP}
      height={shape.rows * STEP}
      aria-hidden="true"
    >
      {cellsOf(cells).map((cell, i) => {
        const [x, y] = [(i % shape.columns) * STEP + 1, Math.floor(i / shape.columns) * STEP + 1];
        const kind = kinds.get(cell) ?? 'there';
        return (
          <g key={cell} data-kind={kind}>
            <rect x={x} y={y} width={SIZE} height={SIZE} rx="1" />
            {kind === 'over' && <path d={`M${x} ${y}l${SIZE} ${SIZE}m0 ${-SIZE}l${-SIZE} ${SIZE}`} />}
          </g>
        );
      })}
    </svg>
  );
}
