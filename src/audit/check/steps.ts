/**
 * Work that can be left between two of its steps, so that a page may draw and hear a cancel. Each step says how
 * many cells were looked at in it.
 */
export type Steps<T> = Generator<number, T, undefined>;

/** Few enough that a step takes milliseconds: a cell with a long formula takes about a quarter of one. */
const CELLS_A_STEP = 50;

/** Does `each` for every item, some at a time. */
export function* inSteps<T>(items: readonly T[], each: (item: T) => void): Steps<void> {
  for (let from = 0; from < items.length; from += CELLS_A_STEP) {
    const some = items.slice(from, from + CELLS_A_STEP);
    some.forEach(each);
    yield some.length;
  }
}

/** Does all the work in one go. */
export function atOnce<T>(steps: Steps<T>): T {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
