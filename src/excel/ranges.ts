/**
 * The ranges of a sheet that one message asks for. Each address is asked for once: a range costs some 200 bytes and
 * an action, and looks, merges and rules often have the same. A range lasts until the message is sent, and so do these.
 */
export class Ranges {
  readonly #asked = new Map<string, Excel.Range>();

  constructor(readonly sheet: Excel.Worksheet) {}

  at(address: string): Excel.Range {
    const known = this.#asked.get(address);
    if (known) return known;
    const range = this.sheet.getRange(address);
    this.#asked.set(address, range);
    return range;
  }
}
