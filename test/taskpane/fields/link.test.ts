import { describe, expect, it } from 'vitest';
import type { Surface } from '../../../src/fields/surface';
import { serve } from '../../../taskpane/fields/link';
import { type FromFields, readFromFields, readToFields } from '../../../taskpane/fields/protocol';
import { createRemote } from '../../../taskpane/fields/remote';
import { createFieldsStore } from '../../../taskpane/fields/store';
import { channelEnds } from './channel';

const box = (width: number, height: number) => ({ width, height });
const SURFACE: Surface = {
  drawn: box(1920, 1080),
  isCounted: true,
  dpr: 1,
  inner: box(1920, 1080),
  outer: box(1920, 1080),
  screen: box(1920, 1080),
  isFullScreen: false,
  pinch: 1,
  isVisible: true,
  isWideGamut: false,
  isHighDynamicRange: false,
  isKeptAwake: true,
};
const FIFTH = { number: 5, u: 0.5, v: 0.5 };

/** A guiding and a fields window, joined; frames pass when `frame` is called. */
function pair() {
  const [here, there] = channelEnds(2) as [
    ReturnType<typeof channelEnds>[0],
    ReturnType<typeof channelEnds>[0],
  ];
  const heard: FromFields[] = [];
  const frames: (() => void)[] = [];
  const remote = createRemote(here, (message) => heard.push(message));
  const store = createFieldsStore();
  store.look(SURFACE);
  let isClosed = false;
  const stop = serve(
    there,
    store,
    (then) => frames.push(then),
    () => {
      isClosed = true;
    },
  );
  const frame = () => {
    for (const then of frames.splice(0)) then();
  };
  return { remote, store, heard, frame, stop, here, isClosed: () => isClosed };
}

describe('two windows', () => {
  it('begin with what the fields window is like', () => {
    const { heard } = pair();
    expect(heard).toMatchObject([
      {
        kind: 'state',
        shown: null,
        facts: {
          drawn: { width: 1920, height: 1080 },
          dpr: 1,
          isFullScreen: false,
          isCovering: true,
          isScaled: false,
          isVisible: true,
          findings: [{ code: 'not-full-screen' }],
        },
      },
    ]);
  });

  it('say that a field is shown once it has been painted, not before', async () => {
    const { remote, store, heard, frame } = pair();
    const answer = remote.show({ field: 'red', marker: FIFTH });
    expect(store.shown.value).toEqual({ field: 'red', marker: FIFTH });
    expect(heard.some(({ kind }) => kind === 'shown')).toBe(false);
    frame();
    expect(await answer).toMatchObject({
      kind: 'shown',
      shown: { field: 'red', marker: FIFTH },
      facts: { drawn: { width: 1920 } },
    });
  });

  it('never say that a field is shown when another was asked for meanwhile', async () => {
    const { remote, heard, frame } = pair();
    const first = remote.show({ field: 'red', marker: null });
    const second = remote.show({ field: 'green', marker: null });
    frame();
    expect(await first).toBeUndefined();
    expect((await second)?.shown.field).toBe('green');
    expect(heard.filter(({ kind }) => kind === 'shown')).toHaveLength(1);
  });

  it('nor when a person stepped on at the fields window', () => {
    const { remote, store, heard, frame } = pair();
    void remote.show({ field: 'red', marker: null });
    store.step(1);
    frame();
    expect(heard.some(({ kind }) => kind === 'shown')).toBe(false);
    expect(heard.at(-1)).toMatchObject({ kind: 'state', shown: { field: 'green' } });
  });

  it('tell a step, full screen and leaving to each other', () => {
    const { store, heard } = pair();
    store.show('white');
    expect(heard.at(-1)).toMatchObject({ shown: { field: 'white', marker: null } });
    store.look({ ...SURFACE, isFullScreen: true });
    expect(heard.at(-1)).toMatchObject({ facts: { isFullScreen: true, findings: [] } });
    store.leave();
    expect(heard.at(-1)).toMatchObject({ kind: 'state', shown: null });
  });

  it('answer when asked, close when told, and say goodbye', async () => {
    const { remote, heard, stop, isClosed, store } = pair();
    remote.ask();
    expect(heard).toHaveLength(2);
    remote.close();
    expect(isClosed()).toBe(true);
    const waiting = remote.show({ field: 'black', marker: null });
    stop();
    expect(heard.at(-1)).toEqual({ kind: 'closed' });
    const count = heard.length;
    store.show('white');
    expect(heard).toHaveLength(count);
    remote.stop();
    expect(await waiting).toBeUndefined();
  });

  it('refuse what they do not understand, and say why', async () => {
    const { remote, store, here } = pair();
    await expect(remote.show({ field: 'purple' as 'red', marker: null })).rejects.toThrow(
      'There is no test field "purple".',
    );
    await expect(remote.show({ field: 'red', marker: { number: 5, u: 2, v: 0 } })).rejects.toThrow(
      'The marker is a number with u and v from 0 to 1, or null.',
    );
    here.postMessage('show');
    here.postMessage({ kind: 'show', field: 'red', marker: null });
    expect(store.shown.value).toBeNull();
  });
});

describe('a guided reading', () => {
  it('is bare: no hint, no help, until a key is pressed', () => {
    const { remote, store } = pair();
    store.show('white');
    store.toggleHelp();
    void remote.show({ field: 'white', marker: null });
    expect([store.isHelp.value, store.isBare.value, store.isAwake.value]).toEqual([false, true, false]);
    store.stir();
    expect(store.isAwake.value).toBe(false);
    store.toggleHelp();
    expect([store.isHelp.value, store.isBare.value, store.isAwake.value]).toEqual([true, false, true]);
    store.stop();
  });
});

describe('messages', () => {
  it('that are not ours are left alone', () => {
    for (const data of [null, undefined, 5, 'x', [], {}, { kind: 'shown' }, { kind: 'show', id: '1' }])
      expect(readToFields(data)).toBeUndefined();
    for (const data of [null, 5, {}, { kind: 'show', id: 1 }]) expect(readFromFields(data)).toBeUndefined();
  });
  it.each([
    [{ number: 1.5, u: 0, v: 0 }],
    [{ number: 100, u: 0, v: 0 }],
    [{ number: 1, u: Number.NaN, v: 0 }],
    [{ number: 1, u: 0 }],
    [undefined],
    ['5'],
  ])('with the marker %o are refused', (marker) => {
    expect(readToFields({ kind: 'show', id: 7, field: 'red', marker })).toMatchObject({
      kind: 'refused',
      id: 7,
    });
  });
});
