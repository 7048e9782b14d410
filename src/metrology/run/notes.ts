/** One thing that was not known and is assumed. */
export interface Note {
  readonly about: string;
  /** A whole sentence. */
  readonly text: string;
}

/** Keeps what had to be assumed, for the sheet and the pane to say. */
export class Notes {
  readonly list: Note[] = [];

  assume(about: string, what: string): void {
    this.list.push({ about, text: `The ${about} is unknown: ${what} assumed.` });
  }

  /** What several fields have in common is told once. */
  assumeOnce(about: string, what: string): void {
    if (!this.list.some((note) => note.about === about)) this.assume(about, what);
  }

  say(about: string, text: string): void {
    this.list.push({ about, text });
  }
}

/** A number as it stands in a note: three digits. */
export function rounded(value: number): number {
  return Number(value.toPrecision(3));
}
