import type { DefinedName } from '../../sheets/book';
import { textNames, textOf } from './constant';
import { BOOK, HISTORY, REGISTER } from './names';
import { plain, words } from './record';

/** The last seal of a sheet, as the workbook remembers it. */
export interface Registered {
  readonly id: string;
  readonly sequence: number;
  /** First 16 hexadecimal digits of the seal's hash; empty after the sheet was reopened. */
  readonly hash: string;
}

const HASH_DIGITS = 16;

export function shortHash(hash: string): string {
  return hash.slice(0, HASH_DIGITS);
}

/** The workbook's mark: made once, at the first seal. */
export function bookMark(names: readonly DefinedName[]): string | undefined {
  const text = textOf(BOOK, names);
  return text === undefined ? undefined : /^light-book\|1\|([a-z0-9]{1,64})$/.exec(text)?.[1];
}
export function bookNames(mark: string): DefinedName[] {
  return textNames(BOOK, `light-book|1|${mark}`);
}

/** Last seals by sheet id; undefined if the register is damaged, empty if there is none. */
export function readRegister(names: readonly DefinedName[]): Map<string, Registered> | undefined {
  const text = textOf(REGISTER, names);
  if (text === undefined) {
    return names.some(({ name }) => name.toLowerCase() === REGISTER.toLowerCase()) ? undefined : new Map();
  }
  const [format, version, ...items] = text.split('|');
  if (format !== 'light-register' || version !== '1') return undefined;
  const found = new Map<string, Registered>();
  for (const item of items) {
    const match = /^([a-z0-9]{1,64})\.(\d{1,9})\.([0-9a-f]{16})?$/.exec(item);
    if (!match) return undefined;
    found.set(match[1]!, { id: match[1]!, sequence: Number(match[2]), hash: match[3] ?? '' });
  }
  return found;
}

export function registerNames(register: ReadonlyMap<string, Registered>): DefinedName[] {
  const items = [...register.values()].map(({ id, sequence, hash }) => `${id}.${sequence}.${hash}`);
  return textNames(REGISTER, ['light-register', 1, ...items].join('|'));
}

/** Something that happened to a sheet's seal. */
export interface SealEvent {
  readonly what: 'sealed' | 'reopened';
  readonly when: string;
  readonly who: string;
  /** Why it was reopened, in the person's words; empty for a seal. */
  readonly why: string;
  readonly hash: string;
}

/** Older events beyond this many are dropped: a name is no log. */
const EVENTS = 40;

export function readHistory(names: readonly DefinedName[]): SealEvent[] {
  const [format, version, ...items] = (textOf(HISTORY, names) ?? '').split('|');
  if (format !== 'light-history' || version !== '1') return [];
  return items.flatMap((item): SealEvent[] => {
    const [what = '', when = '', who = '', why = '', hash = ''] = item.split('~');
    const [name, reason] = [plain(who), plain(why)];
    if ((what !== 'sealed' && what !== 'reopened') || name === undefined || reason === undefined) return [];
    return [{ what, when, who: name, why: reason, hash }];
  });
}

export function historyNames(events: readonly SealEvent[]): DefinedName[] {
  // A tilde separates fields and is not among what percent-encoding encodes.
  const field = (text: string) => words(text).replace(/~/g, '%7E');
  const items = events
    .slice(-EVENTS)
    .map(({ what, when, who, why, hash }) => [what, when, field(who), field(why), hash].join('~'));
  return textNames(HISTORY, ['light-history', 1, ...items].join('|'));
}
