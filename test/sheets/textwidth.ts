/*
 * Widths of printable ASCII from space on, in thousandths of the size: Carlito, whose letters are as wide as Calibri's
 * (fonts-crosextra-carlito 20220224). Others count as a mean letter; dashes, signs and Greek differ little from it.
 */
const REGULAR =
  '226 326 401 498 507 715 682 221 303 303 498 498 250 306 252 386 507 507 507 507 507 507 507 507 507 507 268 268 498 498 498 463 894 579 544 533 615 488 459 631 623 252 319 520 420 855 646 662 517 673 543 459 487 642 567 890 519 487 468 307 386 307 498 498 291 479 525 423 525 498 305 471 525 229 239 455 229 799 525 527 525 525 349 391 335 525 452 715 433 453 395 314 460 314 498';
const BOLD =
  '226 326 438 498 507 729 705 233 312 312 498 498 258 306 267 430 507 507 507 507 507 507 507 507 507 507 276 276 498 498 498 463 898 606 561 529 630 488 459 637 631 267 331 547 423 874 659 676 532 686 563 473 495 653 591 906 551 520 478 325 430 325 498 498 300 494 537 418 537 503 316 474 537 246 255 480 246 813 537 538 537 537 355 399 347 537 473 745 459 474 397 344 475 344 498';
const OTHER = 500;
const WIDTHS = { regular: REGULAR.split(' ').map(Number), bold: BOLD.split(' ').map(Number) };

/** Width of a line of text in points. */
export function textWidth(text: string, size: number, isBold = false): number {
  const widths = isBold ? WIDTHS.bold : WIDTHS.regular;
  return (
    [...text].reduce((sum, letter) => sum + (widths[letter.charCodeAt(0) - 32] ?? OTHER), 0) * (size / 1000)
  );
}

/** Points of a column that is so many characters wide: 7 pixels a character at 96 a inch; 5 of padding hold no text. */
export const columnWidth = (characters: number): number => characters * 7 * 0.75;

/** How many lines a text takes where words wrap at a width; a word that is wider counts for as many as it fills. */
export function linesOf(text: string, width: number, size: number, isBold = false): number {
  return text.split('\n').reduce((sum, paragraph) => {
    let [lines, used] = [1, 0];
    for (const word of paragraph.split(' ')) {
      const own = textWidth(word, size, isBold);
      const gap = used > 0 ? textWidth(' ', size, isBold) : 0;
      if (used > 0 && used + gap + own > width) {
        lines++;
        used = own;
      } else used += gap + own;
    }
    return sum + lines;
  }, 0);
}
