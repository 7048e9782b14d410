import { describe, expect, it } from 'vitest';
import { commandOf, KEY_LIST } from '../../../taskpane/capture/keys';

describe('keys in the number entry', () => {
  it.each([
    ['Enter', 'accept'],
    ['+', 'higher range'],
    ['-', 'lower range'],
    ['*', 'over range'],
    ['/', 'undo'],
    ['Escape', 'clear'],
    ['ArrowUp', 'back'],
    ['PageUp', 'back'],
    ['ArrowDown', 'on'],
    ['PageDown', 'on'],
  ])('%s works whatever has been typed', (key, command) => {
    expect(commandOf({ key }, '')).toBe(command);
    expect(commandOf({ key }, '41.2')).toBe(command);
  });

  it.each([
    ['j', 'jump'],
    ['J', 'jump'],
    ['p', 'pause'],
    ['u', 'unit'],
    ['n', 'note'],
    ['s', 'sound'],
    ['v', 'voice'],
    ['h', 'keys'],
    ['?', 'keys'],
    ['r', 'back'],
    ['Backspace', 'back'],
  ])('%s works while nothing has been typed, and types otherwise', (key, command) => {
    expect(commandOf({ key }, '')).toBe(command);
    expect(commandOf({ key }, '4')).toBeUndefined();
  });

  it.each(['0', '9', '.', ',', ' ', 'e', 'l', 'x', 'f', 'Tab', 'Home'])('%j types', (key) => {
    expect(commandOf({ key }, '')).toBeUndefined();
  });

  it('a word such as “over” can be typed: its first letter is no command, and the rest are not either', () => {
    let text = '';
    for (const key of 'over') {
      expect(commandOf({ key }, text)).toBeUndefined();
      text += key;
    }
  });

  it('a sign after an exponent belongs to the number', () => {
    expect(commandOf({ key: '-' }, '2.1E')).toBeUndefined();
    expect(commandOf({ key: '+' }, '2.1e')).toBeUndefined();
    expect(commandOf({ key: '-' }, '2.1')).toBe('lower range');
  });

  it.each(['ctrlKey', 'altKey', 'metaKey'])('with %s a key is the browser’s', (modifier) => {
    expect(commandOf({ key: 'p', [modifier]: true }, '')).toBeUndefined();
    expect(commandOf({ key: '+', [modifier]: true }, '')).toBeUndefined();
  });

  it('the list in the window names keys that work, with nothing typed', () => {
    const names: Readonly<Record<string, string>> = {
      '\u2212': '-',
      Esc: 'Escape',
      '\u2191': 'ArrowUp',
      '\u2193': 'ArrowDown',
    };
    const keys = KEY_LIST.flatMap(([shown]) => shown.split(/\s+or\s+|\s+/)).map((key) => names[key] ?? key);
    for (const key of keys) expect([key, commandOf({ key }, '')]).toEqual([key, expect.any(String)]);
  });
});
