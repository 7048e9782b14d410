import { effect } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { testField } from '../../src/fields/field';
import { fill, type Mark, type Size } from '../../src/fields/mark';
import { markerMarks } from '../../src/fields/marker';
import look from './fields.module.css';
import { toggleFullScreen, watchFullScreen } from './fullscreen';
import { Help } from './Help';
import { Hint } from './Hint';
import { commandOf } from './keys';
import type { Shown } from './protocol';
import { Start } from './Start';
import { createStage } from './stage';
import type { FieldsStore } from './store';
import { readSurface, watchSurface } from './surface';
import { createWake } from './wake';

/** The whole window: the field, and what lies over it on request; or the start page. */
export function Window({ store }: { readonly store: FieldsStore }) {
  const field = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const shown = store.shown.value;
  const isAwake = store.isAwake.value;
  useEffect(() => join(canvas.current!, store), [store]);
  useEffect(() => {
    if (shown) field.current!.focus();
  }, [shown]);
  const title = shown ? testField(shown.field).title : '';
  return (
    <main class={look.window} data-awake={!shown || isAwake} onMouseMove={store.stir}>
      <div
        ref={field}
        class={look.field}
        role="application"
        tabIndex={shown ? 0 : -1}
        aria-hidden={!shown}
        aria-label={shown ? `${title}. H shows the keys, Escape leaves.` : undefined}
        onKeyDown={(event) => {
          if (shown && act(event, store)) event.preventDefault();
        }}
        onDblClick={() => void toggleFullScreen(store)}
      >
        <canvas ref={canvas} />
      </div>
      {shown ? (
        <>
          <h1 class={look.spoken}>{title}</h1>
          {shown.field === 'ambient' && !store.isBare.value && (
            <p class={look.note}>
              Ambient: close the projector’s shutter, or block its light well in front of the lens with a
              plate that bears heat; then read. A black picture still sends light. Do not cover the lens
              itself, and keep your face out of the beam.
            </p>
          )}
          {store.isHelp.value ? <Help store={store} /> : isAwake && <Hint store={store} />}
        </>
      ) : (
        <Start store={store} />
      )}
    </main>
  );
}

/** What the canvas draws for a state of the window. */
function marksFor(shown: Shown | null): (size: Size) => readonly Mark[] {
  if (!shown) return (size) => [fill(size, [0, 0, 0])];
  const { field, marker } = shown;
  return (size) => [...testField(field).marks(size), ...(marker ? markerMarks(size, marker) : [])];
}

/** Ties canvas, screen and store together, from the first known size on; returns how to untie them. */
function join(canvas: HTMLCanvasElement, store: FieldsStore): () => void {
  const look = () =>
    store.look(
      readSurface({
        drawn: stage.size(),
        isCounted: stage.isCounted(),
        isKeptAwake: wake.isKept() || !store.shown.value,
      }),
    );
  const stage = createStage(canvas, () => look());
  const wake = createWake(look);
  const stops = [
    effect(() => {
      const shown = store.shown.value;
      stage.draw(marksFor(shown));
      wake.keep(shown !== null);
    }),
    watchSurface(look),
    watchFullScreen(store),
    stage.stop,
  ];
  return () => {
    for (const stop of stops) stop();
  };
}

/** Does what a key asks for; false if it asks for nothing. */
function act(event: KeyboardEvent, store: FieldsStore): boolean {
  const command = commandOf(event);
  if (!command) return false;
  if (command.do === 'step') store.step(command.by);
  if (command.do === 'show') store.show(command.field);
  if (command.do === 'full-screen') void toggleFullScreen(store);
  if (command.do === 'help') store.toggleHelp();
  if (command.do === 'leave') store.leave();
  return true;
}
