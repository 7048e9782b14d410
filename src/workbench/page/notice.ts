/**
 * Says in one line what happened or was refused; it stays until it is dismissed or the next one comes.
 *
 * @param isOfEdit what was typed into a cell was refused: it goes, too, when the next edit begins
 */
export function notice(text: string, isOfEdit = false): void {
  const line = document.querySelector<HTMLElement>('#notice')!;
  const close = document.createElement('button');
  close.type = 'button';
  close.textContent = 'Dismiss';
  close.addEventListener('click', clearNotice);
  line.replaceChildren(text, close);
  line.toggleAttribute('data-edit', isOfEdit);
  line.hidden = false;
}

export function clearNotice(): void {
  const line = document.querySelector<HTMLElement>('#notice')!;
  line.replaceChildren();
  line.hidden = true;
}

/** Another cell is being edited: what was said of the one before is out of date. */
export function clearEditNotice(): void {
  if (document.querySelector<HTMLElement>('#notice')!.hasAttribute('data-edit')) clearNotice();
}
