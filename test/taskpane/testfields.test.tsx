import { cleanup, createEvent, fireEvent, render, screen } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openInBrowser } from '../../src/excel/browserwindow';
import { TestFields } from '../../taskpane/components/TestFields';

/** A spreadsheet program that can or cannot open the system's browser. */
function program(canOpen: boolean) {
  const openBrowserWindow = vi.fn();
  const isSetSupported = vi.fn((name: string) => canOpen && name === 'OpenBrowserWindowApi');
  const context = { requirements: { isSetSupported }, ui: { openBrowserWindow } };
  return { Office: { context } as unknown as typeof Office, openBrowserWindow };
}
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

/** Follows the link; whether the browser is left to open it. */
function follow(): boolean {
  render(<TestFields />);
  const link = screen.getByRole('link', { name: 'Open the test fields' });
  const click = createEvent.click(link);
  fireEvent(link, click);
  return !click.defaultPrevented;
}

describe('the way to the test fields', () => {
  it('is an ordinary link in a browser, and says where pictures are saved', () => {
    render(<TestFields />);
    const link = screen.getByRole('link', { name: 'Open the test fields' }) as HTMLAnchorElement;
    expect([link.getAttribute('href'), link.target, link.rel]).toEqual([
      './fields.html',
      '_blank',
      'noopener',
    ]);
    expect(screen.getByText(/saved as pictures for a USB stick; a pane can do neither/)).toBeTruthy();
  });
  it('leads to the system\u2019s browser where the program can open it', () => {
    const { Office, openBrowserWindow } = program(true);
    vi.stubGlobal('Office', Office);
    expect(follow()).toBe(false);
    expect(openBrowserWindow.mock.calls).toEqual([[new URL('./fields.html', location.href).href]]);
  });
  it('stays a link where it cannot', () => {
    const { Office, openBrowserWindow } = program(false);
    vi.stubGlobal('Office', Office);
    expect(follow()).toBe(true);
    expect(openBrowserWindow).not.toHaveBeenCalled();
    expect(openInBrowser('https://localhost:3000/fields.html', undefined)).toBe(false);
  });
  it('is accessible', async () => {
    const { container } = render(<TestFields />);
    expect((await axe.run(container, { rules: { region: { enabled: false } } })).violations).toEqual([]);
  });
});
