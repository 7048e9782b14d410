import type { FUniver } from '@univerjs/core/facade';

/**
 * Lets `guardUserEdits` hear of a command before the engine's own parts do. They listen in the order in which they
 * asked, and the engine takes a formula away as soon as it hears that its cell will be written: a refusal after
 * that would come too late. To be called before the first workbook is made, when those parts come to life.
 */
export function hearFirst(api: FUniver): void {
  api.addEvent(api.Event.BeforeCommandExecute, () => undefined);
}
