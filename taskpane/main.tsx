import './tokens.css';
import './base.css';
import './components/look.module.css';
import { render } from 'preact';
import { createExcelHost } from '../src/excel/excelhost';
import { openWindow } from '../src/excel/window';
import { App } from './app';
import { capturePrefix } from './capture/names';
import { browserShelf } from './capture/shelf';
import { Starting } from './components/Starting';
import { createPreferences } from './preferences';
import { createStore } from './store';
import { troubleOf } from './store/trouble';

/*
 * The custom functions, statistics included, are twice the size of the pane: they are fetched at once, but the
 * first paint does not wait for them.
 */
const functions = import('./functions');

const root = document.getElementById('pane')!;

/** Joins the pane to the spreadsheet program it is shown in. */
async function main(): Promise<void> {
  render(<Starting />, root);
  try {
    await Promise.all([functions, Office.onReady()]);
    const host = await createExcelHost();
    const { partitionKey } = Office.context;
    const preferences = createPreferences(partitionKey);
    const store = createStore(host, {
      preferences,
      keyShelf: async () => {
        const { browserKeyShelf, rememberedShelf } = await import('./trace/keyshelf');
        return rememberedShelf(await browserKeyShelf(partitionKey ?? ''), preferences);
      },
      capture: { shelf: browserShelf(), prefix: capturePrefix(partitionKey), openWindow },
    });
    addEventListener('pagehide', () => store.stop());
    render(<App store={store} />, root);
    await store.start();
  } catch (error) {
    render(<Starting trouble={troubleOf(error, 'Connecting to the spreadsheet')} />, root);
  }
}

void main();
