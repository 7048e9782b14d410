import { describe, expect, it, vi } from 'vitest';
import { createPreferences } from '../../taskpane/preferences';

describe('preferences', () => {
  it('are kept by the browser, apart for each partition', async () => {
    const first = createPreferences('site1');
    await first.set('setup', { place: 'Branch 7' });
    expect(await createPreferences('site1').get('setup')).toEqual({ place: 'Branch 7' });
    expect(await createPreferences('site2').get('setup')).toBeFalsy();
  });

  it('load nothing before they are asked', async () => {
    const load = vi.fn(async () => ({ get: () => undefined, set: () => undefined }));
    const preferences = createPreferences('', load);
    expect(load).not.toHaveBeenCalled();
    await Promise.all([preferences.get('a'), preferences.set('b', 1)]);
    expect(load).toHaveBeenCalledTimes(1);
  });

  it('last as long as the pane where the browser forbids storage', async () => {
    const preferences = createPreferences('', () =>
      Promise.reject(new DOMException('denied', 'SecurityError')),
    );
    await preferences.set('a', 1);
    expect(await preferences.get('a')).toBe(1);
  });

  it('last as long as the pane where the store is full', async () => {
    const preferences = createPreferences('', async () => ({
      get: () => undefined,
      set: () => {
        throw new DOMException('full', 'QuotaExceededError');
      },
    }));
    await preferences.set('a', 1);
    expect(await preferences.get('a')).toBe(1);
  });
});
