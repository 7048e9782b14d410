import type { FUniver } from '@univerjs/core/facade';
import type { Engine } from '../engine/engine';

/** Tells the engine when a person is typing into a cell: Excel then refuses calls of an add-in. */
export function watchEditing(api: FUniver, engine: Engine): void {
  api.addEvent(api.Event.SheetEditStarted, () => {
    engine.isEditing = true;
  });
  api.addEvent(api.Event.SheetEditEnded, () => {
    engine.isEditing = false;
  });
}
