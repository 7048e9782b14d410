/** Once it is drawn, goes to the first field of the page that is marked as wrong, unfolding what hides it. */
export function focusUnfit(): void {
  requestAnimationFrame(() => {
    const field = document.querySelector<HTMLElement>('main [aria-invalid="true"]');
    const fold = field?.closest('details');
    if (fold) fold.open = true;
    field?.focus();
  });
}
