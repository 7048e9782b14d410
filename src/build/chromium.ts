import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

/** Where Chromium or Chrome stands if the variable CHROMIUM does not say. */
const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

/** The browser's program file, or undefined if there is none. */
function findChromium(): string | undefined {
  return [process.env.CHROMIUM ?? '', ...PLACES].find((path) => path !== '' && existsSync(path));
}

/** Starts the machine's Chromium without a window and without its own errands on the network; `more` are its switches. */
export function launchChromium(more: readonly string[] = []): Promise<Browser> {
  const executablePath = findChromium();
  if (!executablePath)
    throw new Error('No Chromium found; install it, or name its file in the variable CHROMIUM');
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      ...more,
    ],
  });
}
