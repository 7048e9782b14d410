import { describe, expect, it } from 'vitest';
import { CHECKS, clock, createBefore } from '../../../taskpane/capture/before';
import { TestShelf } from './scene';

const MINUTE = 60_000;

describe('the steps before', () => {
  it('count the warm-up on the clock, over the closing of the window', () => {
    const shelf = new TestShelf();
    const before = createBefore(shelf, 'run');
    expect([before.isWarming.value, before.left(0)]).toEqual([false, 15 * 60]);
    before.change({ since: 1000 * MINUTE });
    expect(before.left(1004 * MINUTE)).toBe(11 * 60);
    const again = createBefore(shelf, 'run');
    expect([again.isWarming.value, again.left(1010 * MINUTE)]).toEqual([true, 5 * 60]);
    expect(again.left(1100 * MINUTE)).toBe(0);
  });

  it('take another length of warm-up', () => {
    const before = createBefore(undefined, 'run');
    before.change({ minutes: 30, since: 0 });
    expect(before.left(10 * MINUTE)).toBe(20 * 60);
  });

  it('show the clock in minutes and seconds', () => {
    expect([754, 60, 9, 0, 3600].map(clock)).toEqual(['12:34', '1:00', '0:09', '0:00', '60:00']);
  });

  it('are noted in one line: what was confirmed, what was not, the zoom', () => {
    const before = createBefore(undefined, 'run');
    expect(before.summary(0)).toBe(
      'Before the readings: warm-up not timed; not confirmed: mode, zoom, keystone off, lights out',
    );
    before.change({ since: 0, zoom: '1.2' });
    before.tick('keystone', true);
    before.tick('lights', true);
    expect(before.summary(16.9 * MINUTE)).toBe(
      'Before the readings: warmed up 16 min; confirmed: keystone off, lights out; not confirmed: mode, zoom; zoom 1.2',
    );
    for (const { id } of CHECKS) before.tick(id, true);
    before.tick('zoom', false);
    expect(before.summary(0)).toContain('not confirmed: zoom;');
  });

  it('each sheet has its own', () => {
    const shelf = new TestShelf();
    createBefore(shelf, 'run').tick('mode', true);
    expect(createBefore(shelf, 'other').values.value.done).toEqual([]);
  });

  it.each(['nonsense', '{"version":2}', '{"version":1,"minutes":-3}'])('begin afresh after %j', (text) => {
    const shelf = new TestShelf();
    shelf.setItem('run', text);
    expect(createBefore(shelf, 'run').values.value.minutes).toBe(15);
  });

  it('last as long as the window where the storage is full', () => {
    const shelf = new TestShelf();
    shelf.isFull = true;
    const before = createBefore(shelf, 'run');
    before.tick('mode', true);
    expect(before.values.value.done).toEqual(['mode']);
  });
});
