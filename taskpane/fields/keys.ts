import { type FieldId, TEST_FIELDS } from '../../src/fields/field';

/** What a key asks for while a field is shown. */
export type Command =
  | { readonly do: 'step'; readonly by: 1 | -1 }
  | { readonly do: 'show'; readonly field: FieldId }
  | { readonly do: 'full-screen' | 'help' | 'leave' };

/** Also what presenters send: page up and down. */
const FORWARD = ['arrowright', 'arrowdown', 'pagedown', ' ', 'enter'];
const BACK = ['arrowleft', 'arrowup', 'pageup', 'backspace'];

export interface Key {
  readonly key: string;
  readonly ctrlKey?: boolean;
  readonly altKey?: boolean;
  readonly metaKey?: boolean;
}

/** The command of a key press, or undefined: with Ctrl, Alt or Cmd a key is the browser's own. */
export function commandOf({ key, ctrlKey, altKey, metaKey }: Key): Command | undefined {
  if (ctrlKey || altKey || metaKey) return undefined;
  const name = key.toLowerCase();
  if (FORWARD.includes(name)) return { do: 'step', by: 1 };
  if (BACK.includes(name)) return { do: 'step', by: -1 };
  if (name === 'f') return { do: 'full-screen' };
  if (name === 'h' || name === '?') return { do: 'help' };
  if (name === 'escape') return { do: 'leave' };
  const field = TEST_FIELDS.find((known) => known.key === name);
  return field && { do: 'show', field: field.id };
}
