import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { launchChromium } from './chromium';
import { taskpane } from './paths';

/** Pixel sizes that the manifest names. */
const SIZES = [16, 32, 64, 80];

/** Draws taskpane/icons/icon.svg as the PNG files that Excel asks for. Run it after changing the drawing. */
const folder = join(taskpane, 'icons');
const drawing = await readFile(join(folder, 'icon.svg'), 'utf8');
const browser = await launchChromium();
try {
  for (const size of SIZES) {
    const page = await browser.newPage({ viewport: { width: size, height: size } });
    await page.setContent(`<style>body{margin:0}svg{display:block;width:${size}px}</style>${drawing}`);
    const file = join(folder, `icon-${size}.png`);
    await page.screenshot({ path: file, omitBackground: true });
    console.log(file);
  }
} finally {
  await browser.close();
}
