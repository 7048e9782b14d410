import { waitFor } from '@testing-library/preact';
import { expect } from 'vitest';

/** Opens everything that folds, and waits for what is fetched only then. */
export async function unfold(): Promise<void> {
  const folded = () => [...document.querySelectorAll<HTMLDetailsElement>('details:not([open])')];
  while (folded().length > 0) {
    for (const details of folded()) details.open = true;
    // The browser tells of an opening a moment later.
    await new Promise((resolve) => setTimeout(resolve));
    await waitFor(() => expect(document.querySelector('[aria-busy="true"]')).toBeNull(), { timeout: 20_000 });
  }
}
