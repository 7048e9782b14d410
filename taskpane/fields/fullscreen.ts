import type { FieldsStore } from './store';

/** Full screen that our own key ended; any other end was Escape, which the browser keeps for itself. */
let isOurs = false;

/** Goes full screen or back. What the browser refuses is said on the page. */
export async function toggleFullScreen(store: FieldsStore): Promise<void> {
  try {
    if (document.fullscreenElement) {
      isOurs = true;
      await document.exitFullscreen();
    } else {
      await document.documentElement.requestFullscreen({ navigationUI: 'hide' });
    }
  } catch (error) {
    isOurs = false;
    const why = error instanceof Error ? error.message : String(error);
    store.fail(`The browser refused full screen (${why}). Use its own, often F11.`);
  }
}

/** Escape leaves full screen and the field alike. */
export function watchFullScreen(store: FieldsStore): () => void {
  const listen = () => {
    if (document.fullscreenElement) return;
    if (!isOurs) store.quit();
    isOurs = false;
  };
  document.addEventListener('fullscreenchange', listen);
  return () => document.removeEventListener('fullscreenchange', listen);
}
