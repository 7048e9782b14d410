import * as v from 'valibot';
import { ERROR_KINDS } from '../../src/sheets/book';
import type { CellName } from '../../src/sheets/names/all';

/*
 * What was accepted, as it is kept in the browser until it stands in the workbook, and as window and pane tell it
 * each other. Entries of a newer layout are left alone.
 */
export const ENTRY_VERSION = 1;

/** A cell's content, as `CellValue`: an error is an object, so that the text "#N/A" stays text. */
const Cell = v.union([
  v.pipe(v.number(), v.finite()),
  v.pipe(v.string(), v.maxLength(32_767)),
  v.boolean(),
  v.null(),
  v.object({
    error: v.picklist(ERROR_KINDS),
  }),
]);

const Index = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(100));
const Words = v.pipe(v.string(), v.maxLength(500));

const PlaceSchema = v.object({
  // Kept by whichever program: a name that the sheet has not is refused by the host, not here, where it would be lost.
  name: v.pipe(
    v.string(),
    v.maxLength(255),
    v.transform((name) => name as CellName),
  ),
  row: Index,
  column: Index,
});

/** A cell to write, and what it held when the person decided. */
const WriteSchema = v.object({ ...PlaceSchema.entries, value: Cell, before: Cell });

export const EntrySchema = v.object({
  version: v.literal(ENTRY_VERSION),
  /** Unique; the same entry told twice is one entry. */
  id: v.pipe(v.string(), v.regex(/^[a-z0-9]{6,16}-\d{1,6}$/)),
  /** Id of the sheet it belongs to, and the sheet's name at the time. */
  run: v.pipe(v.string(), v.maxLength(64)),
  sheet: v.pipe(v.string(), v.maxLength(31)),
  /** Address of the workbook it was read for; entries of earlier programs, and of programs that tell none, lack it. */
  workbook: v.optional(v.pipe(v.string(), v.maxLength(8192))),
  /** Milliseconds since 1970, and a count that orders what was accepted in one window. */
  at: v.pipe(v.number(), v.integer(), v.minValue(0)),
  n: v.pipe(v.number(), v.integer(), v.minValue(0)),
  what: v.picklist(['reading', 'undo', 'setting', 'note']),
  /** "white, centre (point 5): 248 × 10", for people. */
  words: Words,
  /** The step it belongs to. */
  step: v.optional(v.pipe(v.string(), v.maxLength(280))),
  writes: v.pipe(v.array(WriteSchema), v.maxLength(8)),
  /** A line to add to the sheet's notes. */
  note: v.optional(v.pipe(v.string(), v.maxLength(1000))),
  /** Id of the entry that this one takes back. */
  undoes: v.optional(v.string()),
});
export type Entry = v.InferOutput<typeof EntrySchema>;
export type EntryWrite = Entry['writes'][number];

/**
 * waiting: not yet known to stand in the workbook; written: it stands there; conflict: the cell holds something
 * else meanwhile, a person has to say; kept: the person kept what the cell held; refused: the workbook will never
 * take it, and `why` says so.
 */
const STATES = ['waiting', 'written', 'conflict', 'kept', 'refused'] as const;

export const RecordSchema = v.object({
  entry: EntrySchema,
  state: v.picklist(STATES),
  /** It may have been written already although nobody heard so: look before writing. */
  isAttempted: v.boolean(),
  /** The person said that it goes into the sheet although that is sealed. */
  isAllowed: v.optional(v.literal(true)),
  /** What the cells held when they were written or found in conflict, in the order of `writes`. */
  held: v.optional(v.array(Cell)),
  why: v.optional(Words),
});
export type JournalRecord = v.InferOutput<typeof RecordSchema>;

export function isSettled({ state }: Pick<JournalRecord, 'state'>): boolean {
  return state === 'written' || state === 'kept' || state === 'refused';
}

/** In the order in which they were accepted. */
export function byTime(a: JournalRecord, b: JournalRecord): number {
  return a.entry.at - b.entry.at || a.entry.n - b.entry.n;
}
