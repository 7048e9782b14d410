import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { TEST_FIELDS } from '../../../src/fields/field';
import { formatHash, markerAt, parseHash } from '../../../taskpane/fields/address';
import { commandOf } from '../../../taskpane/fields/keys';
import { createFieldsStore } from '../../../taskpane/fields/store';

describe('keys', () => {
  it.each(['ArrowRight', 'ArrowDown', 'PageDown', ' ', 'Enter'])('%s steps on', (key) => {
    expect(commandOf({ key })).toEqual({ do: 'step', by: 1 });
  });
  it.each(['ArrowLeft', 'ArrowUp', 'PageUp', 'Backspace'])('%s steps back', (key) => {
    expect(commandOf({ key })).toEqual({ do: 'step', by: -1 });
  });
  it.each([
    ['f', 'full-screen'],
    ['F', 'full-screen'],
    ['h', 'help'],
    ['?', 'help'],
    ['Escape', 'leave'],
  ])('%s: %s', (key, what) => {
    expect(commandOf({ key })).toEqual({ do: what });
  });
  it('of every field show it, in either case', () => {
    for (const { id, key } of TEST_FIELDS) {
      expect(commandOf({ key })).toEqual({ do: 'show', field: id });
      expect(commandOf({ key: key.toUpperCase() })).toEqual({ do: 'show', field: id });
    }
  });
  it('with Ctrl, Alt or Cmd stay the browser\u2019s', () => {
    for (const held of ['ctrlKey', 'altKey', 'metaKey'])
      expect(commandOf({ key: 'r', [held]: true })).toBeUndefined();
    expect(commandOf({ key: 'Tab' })).toBeUndefined();
  });
});

describe('the address', () => {
  it('names field, point and pair', () => {
    expect(parseHash('#field=red&point=5&pair=a1')).toEqual({
      field: 'red',
      marker: expect.objectContaining({ number: 5, u: 0.5, v: 0.5 }),
      pair: 'a1',
    });
  });
  it('is read back as it was written', () => {
    for (const { id } of TEST_FIELDS) {
      const address = { field: id, marker: markerAt(id, 13), pair: 'q & a' };
      expect(parseHash(formatHash(address))).toEqual(address);
    }
    expect(formatHash({})).toBe('');
  });
  it('has sixteen points on a checkerboard and thirteen elsewhere', () => {
    expect(markerAt('board', 16)).toMatchObject({ u: 0.875, v: 0.875 });
    expect(markerAt('white', 13)).toMatchObject({ u: 0.95, v: 0.95 });
    expect(markerAt('white', 14)).toBeUndefined();
  });
  it.each(['', '#', '#field=purple&point=3', '#point=3', '#field=constructor'])(
    '"%s" shows the start page',
    (hash) => {
      expect(parseHash(hash)).toEqual({});
    },
  );
  it('leaves out a point that is not there', () => {
    expect(parseHash('#field=red&point=0')).toEqual({ field: 'red' });
    expect(parseHash('#field=red&point=x')).toEqual({ field: 'red' });
  });
});

describe('the window', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('is awake for three seconds after a move of the mouse', () => {
    const store = createFieldsStore();
    store.stir();
    vi.advanceTimersByTime(2_999);
    expect(store.isAwake.value).toBe(true);
    store.stir();
    vi.advanceTimersByTime(2_999);
    expect(store.isAwake.value).toBe(true);
    vi.advanceTimersByTime(1);
    expect(store.isAwake.value).toBe(false);
  });

  it('stays dark when fields are stepped through', () => {
    const store = createFieldsStore();
    store.show('white');
    expect(store.isAwake.value).toBe(true);
    vi.advanceTimersByTime(3_000);
    store.step(1);
    store.show('blue');
    expect(store.isAwake.value).toBe(false);
  });

  it('drops the marker with a step, and goes back by Escape from help to field to start page', () => {
    const store = createFieldsStore();
    store.obey({ field: 'white', marker: { number: 5, u: 0.5, v: 0.5 } });
    store.step(1);
    expect(store.shown.value).toEqual({ field: 'red', marker: null });
    store.toggleHelp();
    store.leave();
    expect(store.shown.value?.field).toBe('red');
    store.leave();
    expect(store.shown.value).toBeNull();
    store.step(1);
    expect(store.shown.value).toBeNull();
  });
});
