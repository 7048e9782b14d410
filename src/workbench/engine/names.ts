import { ApiError } from '../errors';
import { looksLikeCell } from './reference';

/** One defined name. `refersTo` is written as its owner wrote it, with a leading "=". */
export interface Name {
  readonly name: string;
  /** Id of the sheet it belongs to; undefined for a workbook name. */
  readonly sheet: string | undefined;
  refersTo: string;
  comment: string;
  hidden: boolean;
  /** Makes the name inside the engine unique and never used before: `WhiteReadings.7`. */
  serial: number;
}

/** Excel: letters, digits, `_ . \`, at most 255 characters ("Names in formulas"); and nothing that looks like a cell. */
const VALID = /^[A-Za-z_\\\p{L}][A-Za-z0-9_.\\?\p{L}\p{N}]{0,254}$/u;

/** One count for all workbooks: the engine's caches of parsed formulas are shared by all of them. */
let serial = 0;

/**
 * All names of the workbook. The embedded engine confuses equal names of two sheets and keeps using a name's
 * old meaning after it changed; so it only ever sees names with a serial number, and a changed name gets a
 * new one.
 */
export class Names {
  #names: Name[] = [];
  /** Every serial a name ever had: undoing brings formulas back that were written with an older one. */
  readonly #bySerial = new Map<number, Name>();

  /** Gives a name a serial nothing has been computed with yet. */
  renew(name: Name): void {
    name.serial = ++serial;
    this.#bySerial.set(name.serial, name);
  }
  add(name: string, sheet: string | undefined, refersTo: string, comment = '', hidden = false): Name {
    if (!VALID.test(name) || looksLikeCell(name))
      throw new ApiError('InvalidArgument', `"${name}" cannot be a name.`);
    if (this.find(name, sheet)) throw new ApiError('ItemAlreadyExists', `The name "${name}" is taken.`);
    const added = { name, sheet, refersTo, comment, hidden, serial: 0 };
    this.renew(added);
    this.#names.push(added);
    return added;
  }
  remove(name: Name): void {
    this.#names = this.#names.filter((other) => other !== name);
  }
  /** Puts a removed name back, as it was. */
  restore(name: Name): void {
    if (!this.#names.includes(name)) this.#names.push(name);
  }
  /** Exactly in this scope, whatever the case. */
  find(name: string, sheet: string | undefined): Name | undefined {
    const wanted = name.toLowerCase();
    return this.#names.find((item) => item.sheet === sheet && item.name.toLowerCase() === wanted);
  }
  /** As a formula on that sheet sees it: its own names first, then the workbook's. */
  resolve(name: string, sheet: string): Name | undefined {
    return this.find(name, sheet) ?? this.find(name, undefined);
  }
  bySerial(serial: number): Name | undefined {
    const name = this.#bySerial.get(serial);
    return name && this.#names.includes(name) ? name : undefined;
  }
  of(sheet: string | undefined): Name[] {
    return this.#names.filter((item) => item.sheet === sheet);
  }
  all(): readonly Name[] {
    return this.#names;
  }
}

/** The engine's word for a name. The second form stands for `Sheet!Name` written on that very sheet. */
export function internalName({ name, serial }: Name, qualified = false): string {
  return `${name}.${serial}${qualified ? '.q' : ''}`;
}
export function parseInternal(text: string): { serial: number; qualified: boolean } | undefined {
  const match = /\.([0-9]+)(\.q)?$/.exec(text);
  return match ? { serial: Number(match[1]), qualified: match[2] !== undefined } : undefined;
}
