import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { testField } from '../../../src/fields/field';
import { markerMarks } from '../../../src/fields/marker';
import { createStage, type Stage } from '../../fields/stage';
import { upper } from '../prompt';
import type { CaptureStore } from '../store';
import { type Stray, strayLight, strayWords, stripCorner } from '../stray';
import look from './capture.module.css';
import { Entry } from './Entry';
import { foldOnEscape } from './fold';
import own from './Mirror.module.css';
import { Panels } from './Panels';

/** For a projector that shows this very window: the field all over it, and a strip that is gone while one reads. */
export function Mirror({ store }: { readonly store: CaptureStore }) {
  const step = store.current.value!;
  const { screen } = store.parts;
  const isAwake = screen.isMarked.value || store.asking.value !== undefined || store.panel.value !== '';
  const canvas = useRef<HTMLCanvasElement>(null);
  const stage = useRef<Stage | undefined>(undefined);
  const strip = useRef<HTMLDivElement>(null);
  const entry = useRef<HTMLInputElement>(null);
  const focusEntry = () => entry.current?.focus();
  const stray = useSignal<Stray | undefined>(undefined);

  useEffect(() => {
    const measure = () => {
      const box = strip.current?.getBoundingClientRect();
      if (box) stray.value = strayLight(box, { width: innerWidth, height: innerHeight });
    };
    const made = createStage(canvas.current!, measure);
    stage.current = made;
    const observer = new ResizeObserver(measure);
    observer.observe(strip.current!);
    return () => {
      observer.disconnect();
      made.stop();
    };
  }, [stray]);

  useEffect(() => {
    const { number, u, v } = step;
    const mark = screen.isMarked.value ? { number, u, v } : undefined;
    stage.current?.draw((size) => [
      ...testField(step.field).marks(size),
      ...(mark ? markerMarks(size, mark) : []),
    ]);
  }, [step.key, step.field, step.number, step.u, step.v, screen.isMarked.value]);

  useEffect(() => {
    const wake = () => screen.wake();
    document.addEventListener('keydown', wake);
    document.addEventListener('pointermove', wake);
    return () => {
      document.removeEventListener('keydown', wake);
      document.removeEventListener('pointermove', wake);
    };
  }, [screen]);

  return (
    <main class={own.stage} data-awake={isAwake}>
      <canvas ref={canvas} aria-label={`Test field ${testField(step.field).title}`} role="img" />
      <div ref={strip} class={own.strip} data-corner={stripCorner(step)}>
        <h1 class={look.spoken}>Guided capture</h1>
        <h2>
          {upper(step.label)}, {step.word} {step.number}, {step.point}
          <span class={look.quiet}> {store.left.value} left</span>
        </h2>
        <Entry store={store} field={entry} />
        {store.remark.value && <p class={look.remark}>{store.remark.value}</p>}
        {store.trouble.value && <p class={look.remark}>{store.trouble.value}</p>}
        {stray.value && <p class={`${look.quiet} ${own.stray}`}>{strayWords(stray.value)}</p>}
        {/* biome-ignore lint/a11y/noStaticElementInteractions: it hears keys of the buttons inside, and is none itself. */}
        <div class={own.tools} onKeyDown={foldOnEscape(store, focusEntry)}>
          <button type="button" onClick={() => store.show('options')}>
            Options
          </button>
          <FullScreen />
        </div>
        <Panels store={store} onDone={focusEntry} />
      </div>
    </main>
  );
}

/** The field must reach over the whole picture. What the browser refuses it says itself; its own key does it too. */
function FullScreen() {
  const refusal = useSignal('');
  const toggle = async () => {
    try {
      if (document.fullscreenElement) await document.exitFullscreen();
      else await document.documentElement.requestFullscreen({ navigationUI: 'hide' });
    } catch (error) {
      refusal.value = `Full screen was refused (${error instanceof Error ? error.message : String(error)}); try F11.`;
    }
  };
  return (
    <>
      <button type="button" onClick={() => void toggle()}>
        Full screen
      </button>
      {refusal.value && <span class={look.remark}>{refusal.value}</span>}
    </>
  );
}
