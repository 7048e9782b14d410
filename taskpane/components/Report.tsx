/** What an action came to, said aloud as well. Where nothing was done it does not look like success. */
export function Report({ words }: { readonly words: string }) {
  return (
    <p class={/^Nothing was /.test(words) ? 'done refused' : 'done'} role="status">
      {words}
    </p>
  );
}
