/** A cell as the engine names it. */
export interface Place {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** What a cell shows while a function of its has not answered: Excel's `#BUSY!`, in the word that both keep it under. */
export const GETTING_DATA = '#GETTING_DATA';

type Answer =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly error: unknown };
interface Call {
  answer?: Answer;
}
interface Cell {
  readonly place: Place;
  /** By function and arguments. */
  readonly calls: Map<string, Call>;
}

/** An add-in that has answered nothing for so long is gone: a workbook is saved without it, its cells busy. */
const PATIENCE_MS = 60_000;

/** Calls with other arguments that a cell keeps, more than one formula makes. */
const KEPT = 32;

/**
 * Functions that answer later. As in Excel the calculation does not wait for them: their cells are busy, and when
 * answers come the cells are calculated again and find them here. The engine's own functions of that kind
 * (`registerAsyncFunction`) are awaited one cell after the other, so that a sheet would take one wave for each.
 */
export class Later {
  readonly #cells = new Map<string, Cell>();
  readonly #waiting = new Set<Call>();
  #arrived: Set<Place> | undefined;
  #told: (() => void)[] = [];

  /** `again` calculates cells and what depends on them. */
  constructor(readonly again: (places: readonly Place[]) => void) {}

  get isPending(): boolean {
    return this.#waiting.size > 0 || this.#arrived !== undefined;
  }
  /** True when the next answers have been given to their cells, false when none has come for long. */
  answered(): Promise<boolean> {
    return new Promise((resolve) => {
      const timer = setTimeout(() => resolve(false), PATIENCE_MS);
      this.#told.push(() => {
        clearTimeout(timer);
        resolve(true);
      });
    });
  }

  /** True for a cell with calls that are waited for or answered. */
  has(place: Place): boolean {
    return this.#cells.has(keyOf(place));
  }
  /** The answer to a call that the cell has made before; `waiting` while there is none. */
  find(place: Place, call: string): Answer | 'waiting' | undefined {
    const found = this.#cells.get(keyOf(place))?.calls.get(call);
    return found && (found.answer ?? 'waiting');
  }
  wait(place: Place, call: string, result: PromiseLike<unknown>): void {
    let cell = this.#cells.get(keyOf(place));
    if (!cell) {
      cell = { place, calls: new Map() };
      this.#cells.set(keyOf(place), cell);
    }
    const { calls } = cell;
    for (const [oldest, { answer }] of calls) {
      if (calls.size < KEPT) break;
      if (answer) calls.delete(oldest);
    }
    const one: Call = {};
    calls.set(call, one);
    this.#waiting.add(one);
    result.then(
      (value) => this.#settle(place, one, { ok: true, value }),
      (error: unknown) => this.#settle(place, one, { ok: false, error }),
    );
  }
  /** The cell was entered anew: its calls are made again. */
  forget(place: Place): void {
    this.#drop(keyOf(place));
  }
  forgetAll(): void {
    for (const key of [...this.#cells.keys()]) this.#drop(key);
  }

  #drop(key: string): void {
    for (const call of this.#cells.get(key)?.calls.values() ?? []) this.#waiting.delete(call);
    this.#cells.delete(key);
  }
  #settle(place: Place, call: Call, answer: Answer): void {
    if (!this.#waiting.delete(call)) return;
    call.answer = answer;
    if (this.#arrived) this.#arrived.add(place);
    else {
      this.#arrived = new Set([place]);
      // What comes together is calculated together.
      setTimeout(() => {
        const places = [...this.#arrived!];
        this.#arrived = undefined;
        this.again(places);
        for (const tell of this.#told.splice(0)) tell();
      });
    }
  }
}

function keyOf({ sheet, row, column }: Place): string {
  return `${sheet} ${row} ${column}`;
}
