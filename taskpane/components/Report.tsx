import type { Said } from '../store/said';
import look from './look.module.css';

/** What an action came to, said aloud as well. Where nothing was done it does not look like success. */
export function Report({ words }: { readonly words: Said }) {
  const isRefused = typeof words !== 'string';
  return (
    <p class={isRefused ? `${look.done} ${look.refused}` : look.done} role="status">
      {isRefused ? words.refused : words}
    </p>
  );
}
