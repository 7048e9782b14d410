import { HostError } from './host';

/**
 * How long an answer of the program is waited for, in ms: the longest seen, 5000 units built and calculated for the
 * first time, took 35 s; a program that somebody types in answers when the cell is left.
 */
export const REPLY = 120_000;

/** What is asked for, or after that time the word that nobody answered. @throws HostError `busy` */
export async function within<T>(limit: number, asked: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(silent(limit)), limit);
  });
  try {
    return await Promise.race([asked, late]);
  } finally {
    clearTimeout(timer);
  }
}

function silent(limit: number): HostError {
  return new HostError(
    'busy',
    `The spreadsheet program has not answered for ${Math.round(limit / 1000)} seconds. Whether it did what was asked is not known.`,
    'Leave the cell that is being edited, if there is one, and look at the sheet; then try again.',
    'no reply',
  );
}

/** A context of which every round trip ends. */
export function answering<C extends Excel.RequestContext>(context: C, limit: number): C {
  const sync = context.sync.bind(context);
  context.sync = <T>(passed?: T) => within(limit, sync(passed)) as Promise<T>;
  return context;
}
