import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, expect, it, vi } from 'vitest';
import { Hint } from '../../../taskpane/fields/Hint';
import { Start } from '../../../taskpane/fields/Start';
import { createFieldsStore } from '../../../taskpane/fields/store';

afterEach(() => {
  cleanup();
  Reflect.deleteProperty(document.documentElement, 'requestFullscreen');
});

it('a full screen that the browser refuses is said over the first field', async () => {
  const store = createFieldsStore();
  Object.assign(document.documentElement, {
    requestFullscreen: () => Promise.reject(new TypeError('Permissions check failed')),
  });
  render(<Start store={store} />);
  fireEvent.click(screen.getByRole('button', { name: 'Full screen, and begin' }));
  await vi.waitFor(() => expect(store.shown.value?.field).toBe('grid'));
  await vi.waitFor(() => expect(store.trouble.value).not.toBe(''));
  cleanup();
  render(<Hint store={store} />);
  expect(screen.getByText(/^The browser refused full screen \(Permissions check failed\)/)).toBeTruthy();
  store.stop();
});
