/** What an action came to, in words; `refused` where nothing was done, so that it does not look like success. */
export type Said = string | { readonly refused: string };

export const refused = (words: string): Said => ({ refused: words });
