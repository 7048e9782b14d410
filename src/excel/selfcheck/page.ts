import { openWindow } from '../window';
import type { Probe } from './probe';

/* What the frame around the pane lets it do. */

const WAIT_MS = 15_000;
const DATABASE = 'LightSelfCheck';
/** Key in the browser's storage under which the pane leaves a word for its window. */
export const STORAGE_MARK = 'LightSelfCheck';

export const PAGE_PROBES: readonly Probe[] = [
  {
    id: 'window',
    title: 'A window of ours, there and back',
    expects: 'the window answers and has the same storage as the pane',
    means:
      'Guided capture runs inside the pane; readings wait in the window’s own storage until it tells the pane.',
    run: async () => {
      const mark = String(Math.random());
      localStorage.setItem(STORAGE_MARK, mark);
      let hear: (text: string) => void = () => undefined;
      const heard = new Promise<string>((resolve) => {
        hear = resolve;
      });
      const opening = await openWindow(
        './selfcheck.html',
        { width: 30, height: 30 },
        {
          heard: (text) => hear(text),
          closed: () => hear('closed'),
        },
      );
      try {
        if (!opening.ok) return { came: `no window: ${opening.why} (${opening.code})`, isAsExpected: false };
        const timer = setTimeout(() => hear('no answer'), WAIT_MS);
        const answer = await heard;
        clearTimeout(timer);
        opening.window.close();
        const storage =
          answer === mark ? 'shared' : answer.startsWith('0.') || answer === '' ? 'its own' : answer;
        return { came: `answered; storage: ${storage}`, isAsExpected: answer === mark };
      } finally {
        localStorage.removeItem(STORAGE_MARK);
      }
    },
  },
  {
    id: 'clipboard',
    title: 'Copying from the pane',
    expects: 'allowed',
    means: 'Texts to copy are shown in a field, to be copied by hand.',
    run: async () => {
      try {
        await navigator.clipboard.writeText('Self-check');
        return { came: 'allowed', isAsExpected: true };
      } catch (error) {
        return { came: `refused: ${String(error)}`, isAsExpected: false };
      }
    },
  },
  {
    id: 'database',
    title: 'Keeping a signing key in the browser',
    expects: 'kept',
    means: 'A key made here is gone when the pane closes: keep its file.',
    run: async () => {
      const open = () =>
        new Promise<IDBDatabase>((resolve, reject) => {
          const request = indexedDB.open(DATABASE, 1);
          request.onupgradeneeded = () => request.result.createObjectStore('kept');
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => reject(request.error);
        });
      const done = <T>(request: IDBRequest<T>) =>
        new Promise<T>((resolve, reject) => {
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => reject(request.error);
        });
      const first = await open();
      await done(first.transaction('kept', 'readwrite').objectStore('kept').put('Self-check', 'mark'));
      first.close();
      const second = await open();
      const kept = await done(second.transaction('kept').objectStore('kept').get('mark'));
      second.close();
      indexedDB.deleteDatabase(DATABASE);
      const persisted = (await navigator.storage?.persisted?.()) ?? false;
      return {
        came: `${kept === 'Self-check' ? 'kept' : 'lost'}; the browser ${persisted ? 'promises to keep it' : 'may drop it when space runs short'}`,
        isAsExpected: kept === 'Self-check',
      };
    },
  },
  {
    id: 'worker',
    title: 'Work beside the pane',
    expects: 'a script of ours runs in a worker',
    means: 'The simulation cannot run; the uncertainty budget holds without it.',
    run: async (scratch) => {
      const runs = await scratch.worker();
      return { came: runs ? 'runs' : 'does not run', isAsExpected: runs };
    },
  },
];
