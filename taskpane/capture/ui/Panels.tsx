import type { CaptureStore } from '../store';
import { Cautious } from './Cautious';
import { Jump } from './Jump';
import { Keys } from './Keys';
import { NoteForm } from './NoteForm';
import { Options } from './Options';

export interface PanelsProps {
  readonly store: CaptureStore;
  readonly onDone: () => void;
}

/** What has been unfolded, if anything. */
export function Panels({ store, onDone }: PanelsProps) {
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
