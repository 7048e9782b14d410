/** Says in one line what happened or was refused; it stays until it is dismissed or the next one comes. */
export function notice(text: string): void {
  const line = document.querySelector<HTMLElement>('#notice')!;
  const close = document.createElement('button');
  close.type = 'button';
  close.textContent = 'Dismiss';
  close.addEventListener('click', clearNotice);
  line.replaceChildren(text, close);
  line.hidden = false;
}

export function clearNotice(): void {
  const line = document.querySelector<HTMLElement>('#notice')!;
  line.replaceChildren();
  line.hidden = true;
}
