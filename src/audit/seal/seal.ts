import type { Book } from '../../sheets/book';
import { IDENTITY, identityFormula } from '../../sheets/plan';
import { type SheetView, viewOf } from '../view';
import { hex, utf8 } from './bytes';
import { canonicalText, entriesOf } from './canonical';
import { partsOf, textNames, textOf } from './constant';
import type { NameEdits } from './edits';
import type { Entry } from './entry';
import { marksOf } from './marks';
import { BOOK, HISTORY, REGISTER, SEAL } from './names';
import { type Head, parseRecord, recordText, SEAL_VERSION, type SealRecord } from './record';
import {
  bookMark,
  bookNames,
  historyNames,
  readHistory,
  readRegister,
  registerNames,
  type SealEvent,
  shortHash,
} from './register';
import { type Signer, signRecord } from './sign';
import type { Subtle } from './subtle';

export interface SealRequest<Key> {
  readonly who: string;
  /** ISO time, UTC: `2026-11-25T09:30:00Z`. */
  readonly when: string;
  /** Version of the program. */
  readonly program: string;
  readonly subtle: Subtle<Key>;
  /** A fresh random id, lower-case letters and digits: for the workbook's mark, or for a copied sheet. */
  readonly newId: () => string;
  /** Signs the seal too. */
  readonly signer?: Signer<Key>;
}

export type SealAnswer =
  | { readonly ok: true; readonly record: SealRecord; readonly edits: readonly NameEdits[] }
  | { readonly ok: false; readonly why: string };

/**
 * Seals a sheet of ours: what to write into hidden names. The workbook itself is not touched here. A sheet that
 * was copied from another sealed or unsealed one gets an id of its own first.
 */
export async function seal<Key>(book: Book, sheet: string, request: SealRequest<Key>): Promise<SealAnswer> {
  const found = book.sheets.find(({ name }) => name === sheet);
  const view = found && viewOf(found);
  if (!view?.identity) return { ok: false, why: `“${sheet}” is not one of our sheets.` };
  const register = readRegister(book.names);
  if (!register) return { ok: false, why: 'The workbook’s register of seals is damaged.' };
  // A seal that the register has not was broken off while it was made: it is made again.
  const isRegistered = (register.get(view.identity.id)?.hash ?? '') !== '';
  const stored = sealOf(view);
  if (isSealed(view) && (isRegistered || stored === 'newer'))
    return { ok: false, why: `“${sheet}” is sealed already; reopen it first.` };
  const isCopy = book.sheets.some(
    (other) => other !== found && viewOf(other).identity?.id === view.identity!.id,
  );
  const identity = isCopy ? { ...view.identity, id: request.newId() } : view.identity;
  const mark = bookMark(book.names) ?? request.newId();
  const { when, who, program } = request;
  const sequence = (register.get(identity.id)?.sequence ?? 0) + 1;
  const head: Head = { format: SEAL_VERSION, ...identity, book: mark, sequence, when, who, program };
  const before = readHistory(view.sheet.names);
  const own = { what: 'sealed', when, who, why: '' } as const;
  // As the sheet will stand once it is sealed: its history is sealed too.
  const entries = entriesOf(withHistory(view, [...before, { ...own, hash: '' }]), book, head);
  const { hash, builtHash } = await hashesOf(request.subtle, head, entries);
  const unsigned: SealRecord = {
    ...head,
    hash,
    builtHash,
    marks: marksOf(entries),
  };
  const record = request.signer ? await signRecord(request.subtle, request.signer, unsigned) : unsigned;
  const history = historyNames([...before, { ...own, hash: shortHash(hash) }]);
  register.set(identity.id, { id: identity.id, sequence: record.sequence, hash: shortHash(hash) });
  return {
    ok: true,
    record,
    edits: [
      {
        sheet,
        remove: [...partsOf(SEAL, view.sheet.names), ...partsOf(HISTORY, view.sheet.names)],
        set: [
          ...(isCopy
            ? [
                {
                  ...view.sheet.names.find(({ name }) => name === IDENTITY)!,
                  refersTo: identityFormula(identity),
                  hidden: true,
                },
              ]
            : []),
          ...textNames(SEAL, recordText(record)),
          ...history,
        ],
      },
      {
        expects: [BOOK, REGISTER].map((name) => {
          const there = book.names.find((each) => each.name.toLowerCase() === name.toLowerCase());
          return there ? { name, refersTo: there.refersTo } : { name };
        }),
        remove: [...partsOf(REGISTER, book.names), ...partsOf(BOOK, book.names)],
        set: [...bookNames(mark), ...registerNames(register)],
      },
    ],
  };
}

/** The sheet as it is with these events in its history. */
function withHistory({ sheet }: SheetView, events: readonly SealEvent[]): SheetView {
  const parts = new Set(partsOf(HISTORY, sheet.names));
  const names = [...sheet.names.filter(({ name }) => !parts.has(name)), ...historyNames(events)];
  return viewOf({ ...sheet, names });
}

/** Takes the seal off, and writes down who did it, when and why. */
export function reopen(
  book: Book,
  sheet: string,
  { who, when, why }: { who: string; when: string; why: string },
): { ok: true; edits: readonly NameEdits[] } | { ok: false; why: string } {
  const found = book.sheets.find(({ name }) => name === sheet);
  if (!found || !isSealed(viewOf(found))) return { ok: false, why: `“${sheet}” is not sealed.` };
  const view = viewOf(found);
  const stored = sealOf(view);
  const record = typeof stored === 'object' ? stored : undefined;
  const hash = record ? shortHash(record.hash) : '';
  const register = readRegister(book.names);
  // A seal that cannot be read does not tell whose it is: the sheet does.
  const id = record?.id ?? view.identity?.id;
  const last = id === undefined ? undefined : register?.get(id);
  if (register && id !== undefined && (record || last)) {
    const sequence = Math.max(last?.sequence ?? 0, record?.sequence ?? 0);
    register.set(id, { id, sequence, hash: '' });
  }
  const events = [...readHistory(found.names), { what: 'reopened', when, who, why, hash } as const];
  return {
    ok: true,
    edits: [
      {
        sheet,
        remove: [...partsOf(SEAL, found.names), ...partsOf(HISTORY, found.names)],
        set: historyNames(events),
      },
      ...(register ? [{ remove: partsOf(REGISTER, book.names), set: registerNames(register) }] : []),
    ],
  };
}

/** Whether a sheet bears a seal, whole or damaged. */
export function isSealed({ sheet }: SheetView): boolean {
  return partsOf(SEAL, sheet.names).length > 0;
}

/** The seal of a sheet: undefined if there is none or it is damaged. */
export function sealOf({ sheet }: SheetView): SealRecord | 'newer' | undefined {
  const text = textOf(SEAL, sheet.names);
  return text === undefined ? undefined : parseRecord(text);
}

/** SHA-256 of the canonical form as hexadecimal digits, with and without results. */
export async function hashesOf(
  subtle: Pick<Subtle<unknown>, 'digest'>,
  head: Pick<Head, 'format' | 'kind' | 'version' | 'id'>,
  entries: readonly Pick<Entry, 'group' | 'text'>[],
): Promise<{ hash: string; builtHash: string }> {
  const hash = async (part: readonly Pick<Entry, 'text'>[]) => {
    const text = canonicalText(
      head,
      part.map((entry) => entry.text),
    );
    return hex(new Uint8Array(await subtle.digest('SHA-256', utf8(text))));
  };
  return {
    hash: await hash(entries),
    builtHash: await hash(entries.filter(({ group }) => group !== 'result')),
  };
}
