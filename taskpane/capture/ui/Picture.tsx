import { isOpen, stateOf } from '../order';
import type { CaptureStore } from '../store';
import type { Step } from '../task';
import own from './Picture.module.css';

/** Width of the drawing in its own units. */
const WIDE = 320;
/** Drawn where the sheet does not know the image. */
const USUAL = { width: 16, height: 10 };

/** The image as seen facing the screen: what is done, what is left, and where the meter goes now. */
export function Picture({ store }: { readonly store: CaptureStore }) {
  const step = store.current.value!;
  const { image } = store.task.value!;
  const { width, height } = image ?? USUAL;
  const high = Math.min(WIDE, (WIDE * height) / width);
  const points = store.groupOf(step).steps;
  const isRow = points.every(({ u, v }) => u === points[0]!.u && v === points[0]!.v) && points.length > 1;
  if (step.isAnywhere) return null;
  const [x, y] = [step.u * WIDE, step.v * high];
  return (
    <svg class={own.image} viewBox={`-4 -4 ${WIDE + 8} ${high + 8}`} aria-hidden="true">
      <rect class={own.frame} x="0" y="0" width={WIDE} height={high} />
      <path class={own.tape} d={`M0 ${y}H${x - 14}M${x} 0V${y - 14}`} />
      {!isRow &&
        points
          .filter(({ key }) => key !== step.key)
          .map((point) => <Spot key={point.key} point={point} high={high} />)}
      <circle class={own.now} cx={x} cy={y} r="14" />
      <circle class={isOpen(step) ? `${own.core} ${own.open}` : own.core} cx={x} cy={y} r="4" />
    </svg>
  );
}

function Spot({ point, high }: { readonly point: Step; readonly high: number }) {
  const [x, y] = [point.u * WIDE, point.v * high];
  const state = stateOf(point);
  return (
    <g class={own.spot} data-state={state}>
      <circle cx={x} cy={y} r="8" />
      {state === 'taken' && <path d={`M${x - 4} ${y}l3 3l5 -6`} />}
      {(state === 'over' || state === 'unreadable') && (
        <path d={`M${x - 4} ${y - 4}l8 8M${x + 4} ${y - 4}l-8 8`} />
      )}
    </g>
  );
}
