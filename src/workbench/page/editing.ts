import type { FUniver } from '@univerjs/core/facade';
import type { Engine } from '../engine/engine';
import { clearEditNotice } from './notice';

/** Tells the engine when a person is typing into a cell: Excel then refuses calls of an add-in. What was refused before is forgotten. */
export function watchEditing(api: FUniver, engine: Engine): void {
  api.addEvent(api.Event.SheetEditStarted, () => {
    engine.isEditing = true;
    clearEditNotice();
  });
  api.addEvent(api.Event.SheetEditEnded, () => {
    engine.isEditing = false;
  });
}
