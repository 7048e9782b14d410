import * as v from 'valibot';
import { EntrySchema, type JournalRecord } from './entry';
import type { Task } from './task';

/*
 * Between the pane, which writes into the workbook, and the capture window, which does not know it. Both ends may
 * close and come back at any time: the window says `ready` until it is answered, and repeats what nobody has
 * confirmed.
 */

/** From the capture window. */
const ToPaneSchema = v.variant('kind', [
  /** The window listens now. */
  v.object({ kind: v.literal('ready') }),
  /** A person has accepted this. `isRepeat`: it was told before, and may have been written. */
  v.object({ kind: v.literal('take'), entry: EntrySchema, isRepeat: v.boolean() }),
  /** Answer to a conflict: the reading that was accepted, or what the cell holds meanwhile. */
  v.object({ kind: v.literal('decide'), id: v.string(), choice: v.picklist(['mine', 'theirs']) }),
  v.object({ kind: v.literal('close') }),
]);
export type ToPane = v.InferOutput<typeof ToPaneSchema>;

/** From the pane. */
export type ToWindow =
  /** What there is to read, as the sheet was at `asOf` (the pane's clock). */
  | { readonly kind: 'task'; readonly task: Task; readonly asOf: number }
  /** There is no such sheet now. */
  | { readonly kind: 'no-task'; readonly why: string }
  /** What became of an entry, at `time` of the pane's clock. */
  | { readonly kind: 'told'; readonly record: JournalRecord; readonly time: number }
  /** What stands in the way of writing just now; empty when nothing does. */
  | { readonly kind: 'trouble'; readonly words: string };

export function readToPane(text: string): ToPane | undefined {
  const read = v.safeParse(ToPaneSchema, parse(text));
  return read.success ? read.output : undefined;
}

const KINDS: readonly string[] = ['task', 'no-task', 'told', 'trouble'] satisfies ToWindow['kind'][];

/** The pane is ours and of the same build; only whose message it is has to be told. */
export function readToWindow(text: string): ToWindow | undefined {
  const data = parse(text);
  const kind = typeof data === 'object' && data !== null ? (data as { kind?: unknown }).kind : undefined;
  return KINDS.includes(String(kind)) ? (data as ToWindow) : undefined;
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    // Somebody else's message in the same window.
    return undefined;
  }
}

/** One end of the way between window and pane. */
interface Link<Out, In> {
  send(message: Out): void;
  /** One listener; called for every message that was understood. */
  listen(hear: (message: In) => void): void;
  close(): void;
}
export type PaneLink = Link<ToPane, ToWindow>;
export type WindowLink = Link<ToWindow, ToPane>;

/** Both ends in one page, for capture inside the pane. Messages arrive later, as between windows. */
export function joinedLinks(): { readonly window: PaneLink; readonly pane: WindowLink } {
  let toPane: (message: ToPane) => void = () => undefined;
  let toWindow: (message: ToWindow) => void = () => undefined;
  let isOpen = true;
  const later = (work: () => void) =>
    queueMicrotask(() => {
      if (isOpen) work();
    });
  const close = () => {
    isOpen = false;
  };
  return {
    window: {
      send: (message) => later(() => toPane(message)),
      listen: (hear) => {
        toWindow = hear;
      },
      close,
    },
    pane: {
      send: (message) => later(() => toWindow(message)),
      listen: (hear) => {
        toPane = hear;
      },
      close,
    },
  };
}
