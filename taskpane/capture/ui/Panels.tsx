import { useLayoutEffect, useRef } from 'preact/hooks';
import type { CaptureStore } from '../store';
import { Cautious } from './Cautious';
import { foldOnEscape } from './fold';
import { Jump } from './Jump';
import { Keys } from './Keys';
import { NoteForm } from './NoteForm';
import { Options } from './Options';
import own from './Panels.module.css';

export interface PanelsProps {
  readonly store: CaptureStore;
  readonly onDone: () => void;
}

/** What has been unfolded, if anything. Escape folds it again. */
export function Panels({ store, onDone }: PanelsProps) {
  const panel = store.panel.value;
  const box = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    if (panel !== '') box.current!.scrollIntoView?.({ block: 'nearest' });
  }, [panel]);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: it hears keys of the controls inside, and is none itself.
    <div ref={box} class={own.panel} onKeyDown={foldOnEscape(store, onDone)}>
      <Shown store={store} onDone={onDone} />
    </div>
  );
}

function Shown({ store, onDone }: PanelsProps) {
  switch (store.panel.value) {
    case 'jump':
      return <Jump store={store} onDone={onDone} />;
    case 'keys':
      return <Keys />;
    case 'options':
      return <Options store={store} />;
    case 'note':
      return <NoteForm store={store} onDone={onDone} />;
    case 'cautions':
      return <Cautious />;
    case '':
      return null;
  }
}
