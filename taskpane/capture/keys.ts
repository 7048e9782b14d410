/** What a key asks for. */
export type Command =
  | 'accept'
  | 'higher range'
  | 'lower range'
  | 'over range'
  | 'undo'
  | 'clear'
  | 'back'
  | 'on'
  | 'jump'
  | 'pause'
  | 'unit'
  | 'note'
  | 'sound'
  | 'voice'
  | 'keys';

export interface KeyPress {
  readonly key: string;
  readonly ctrlKey?: boolean;
  readonly altKey?: boolean;
  readonly metaKey?: boolean;
}

/** On the number pad and never part of a number: they work whatever has been typed. */
const ALWAYS: Readonly<Record<string, Command>> = {
  Enter: 'accept',
  '+': 'higher range',
  '-': 'lower range',
  '*': 'over range',
  '/': 'undo',
  Escape: 'clear',
  ArrowUp: 'back',
  ArrowDown: 'on',
  PageUp: 'back',
  PageDown: 'on',
};

/** Letters, and keys that edit a number, while nothing has been typed. */
const WHEN_EMPTY: Readonly<Record<string, Command>> = {
  Backspace: 'back',
  r: 'back',
  j: 'jump',
  p: 'pause',
  u: 'unit',
  n: 'note',
  s: 'sound',
  v: 'voice',
  h: 'keys',
  '?': 'keys',
};

/** The command of a key in the number entry; undefined where the key types. With Ctrl, Alt or Cmd it is the browser's. */
export function commandOf({ key, ctrlKey, altKey, metaKey }: KeyPress, text: string): Command | undefined {
  if (ctrlKey || altKey || metaKey) return undefined;
  // "1.2E+3": the sign belongs to the exponent.
  if ((key === '+' || key === '-') && /\d[eE]$/.test(text)) return undefined;
  return ALWAYS[key] ?? (text === '' ? WHEN_EMPTY[key.length === 1 ? key.toLowerCase() : key] : undefined);
}

/** The short list shown in the window. */
export const KEY_LIST: readonly (readonly [string, string])[] = [
  ['Enter', 'take the number'],
  ['+  \u2212', 'range factor up, down'],
  ['*', 'over range'],
  ['/', 'undo the last'],
  ['Esc', 'clear the entry'],
  ['\u2191', 'back: read the point before again; Backspace too'],
  ['\u2193', 'skip: leave this point open'],
  ['J', 'jump to any point'],
  ['P', 'pause'],
  ['U', 'unit lx or fc'],
  ['N', 'note'],
  ['S  V', 'sound, voice'],
];
