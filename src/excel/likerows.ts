/** So many rows from `row` on that look like those from `from` on, again and again where there are more of them. */
export interface RowCopy {
  readonly row: number;
  readonly rows: number;
  readonly from: number;
  readonly height: number;
}

/** A copy is worth it where more ranges than this would have to be painted instead. */
const LEAST = 2;
/** How many rows alike are tried as the beginning of what is copied. */
const TRIES = 24;

/**
 * Finds rows that look like rows above them, longest first as one reads down; what remains is to be painted before
 * anything is copied.
 *
 * @param looks what each row looks like as a whole; "" for a row with nothing in it, which is left alone
 * @param ranges how many ranges of one look a row has
 */
export function likeRows(looks: readonly string[], ranges: (row: number) => number): RowCopy[] {
  const copies: RowCopy[] = [];
  const before = new Map<string, number[]>();
  for (let row = 0; row < looks.length; ) {
    const best = looks[row] === '' ? undefined : bestCopy(looks, ranges, row, before.get(looks[row]!) ?? []);
    if (best) copies.push(best);
    for (let next = row + (best?.rows ?? 1); row < next; row++) {
      const known = before.get(looks[row]!) ?? [];
      if (known.length < TRIES) before.set(looks[row]!, [...known, row]);
    }
  }
  return copies;
}

function bestCopy(
  looks: readonly string[],
  ranges: (row: number) => number,
  row: number,
  starts: readonly number[],
): RowCopy | undefined {
  let best: RowCopy | undefined;
  let most = LEAST - 1;
  for (const from of starts) {
    const copy = copyFrom(looks, row, from);
    const saved = Array.from({ length: copy.rows }, (_, i) => row + i).reduce(
      (sum, at) => (at > row && looks[at] === looks[at - 1] ? sum : sum + ranges(at)),
      0,
    );
    if (saved > most) {
      best = copy;
      most = saved;
    }
  }
  return best;
}

/** The longest run from `row` on that repeats what stands from `from` on; whole repeats only, no empty row at its end. */
function copyFrom(looks: readonly string[], row: number, from: number): RowCopy {
  const period = row - from;
  let rows = 0;
  while (row + rows < looks.length && looks[row + rows] === looks[from + (rows % period)]) rows++;
  if (rows >= period) rows -= rows % period;
  else while (looks[row + rows - 1] === '') rows--;
  const height = Math.min(rows, period);
  const isOne = Array.from({ length: height }, (_, i) => looks[from + i]).every(
    (look) => look === looks[from],
  );
  return { row, rows, from, height: isOne ? 1 : height };
}
