/** The narrowest task pane that Excel shows, and the widest that is of use here, in pixels. */
const NARROWEST = 320;
const WIDEST = 720;
/** Pixels by arrow key. */
const STEP = 10;

/** Lets the divider between spreadsheet and pane be dragged, or moved with the arrow keys. */
export function watchDivider(divider: HTMLElement, split: HTMLElement): void {
  const width = (): number => split.getBoundingClientRect().right - divider.getBoundingClientRect().right;
  const show = (pixels: number): void => {
    const kept = Math.round(Math.min(WIDEST, Math.max(NARROWEST, pixels)));
    split.style.setProperty('--pane', `${kept}px`);
    divider.setAttribute('aria-valuenow', String(kept));
  };
  show(width());
  divider.addEventListener('pointerdown', (down) => {
    divider.setPointerCapture(down.pointerId);
    split.classList.add('dragging');
  });
  divider.addEventListener('pointermove', (move) => {
    if (divider.hasPointerCapture(move.pointerId)) show(split.getBoundingClientRect().right - move.clientX);
  });
  divider.addEventListener('lostpointercapture', () => split.classList.remove('dragging'));
  divider.addEventListener('keydown', (press) => {
    if (press.key === 'ArrowLeft') show(width() + STEP);
    if (press.key === 'ArrowRight') show(width() - STEP);
  });
}
