import { calculate } from '../../audit/formula/calculate';
import { serialKey } from '../../procurement/lot/serials';
import { ageingPlan } from '../../sheets/ageing';
import { defaultAgeing, type Measurement, MOST_MEASUREMENTS } from '../../sheets/ageing/setup';
import type { Book } from '../../sheets/book';
import { bookOf } from '../../sheets/realize';
import { Failure } from '../failure';
import type { RegisterLine } from './lines';

const WHITE: ReadonlySet<string> = new Set(['WhiteLightOutput', 'MeasuredOutput']);

/** White light output of one unit, from whichever workbook. */
export function isOfUnit({ serial, quantity, value }: RegisterLine, asked: string): boolean {
  const key = serialKey(asked);
  return (
    key !== '' && serialKey(serial) === key && value !== null && quantity !== null && WHITE.has(quantity)
  );
}

/**
 * An ageing sheet of one unit over all workbooks. A measurement is taken once, with its hours where any sheet states
 * them; those without hours are handed back, since no fit can take them.
 */
export function ageingOf(
  serial: string,
  lines: readonly RegisterLine[],
  id: string,
): { book: Book; taken: number; without: RegisterLine[] } {
  const known = new Map<string, RegisterLine>();
  for (const line of lines) {
    const key = `${line.date} ${line.value}`;
    const before = known.get(key);
    if (!before || before.hours === null) known.set(key, line);
  }
  const all = [...known.values()];
  const modes = new Set(all.flatMap(({ mode }) => mode ?? []));
  if (modes.size > 1) {
    throw new Failure(
      `“${serial}” was measured in several modes: ${[...modes].join(', ')}. Light output ages within one.`,
      'Say which with --mode.',
    );
  }
  const timed = all.filter(({ hours }) => hours !== null).sort((a, b) => a.hours! - b.hours!);
  if (timed.length > MOST_MEASUREMENTS)
    throw new Failure(
      `“${serial}” has ${timed.length} measurements; an ageing sheet has ${MOST_MEASUREMENTS} lines.`,
    );
  const points = timed.map(
    ({ hours, value, u, date, workbook, sheet }): Measurement => ({
      hours: hours!,
      output: value!,
      ...(u === null ? {} : { expanded: u }),
      ...(date === null ? {} : { date }),
      remark: `${workbook}, ${sheet}`.slice(0, REMARK_MAX),
    }),
  );
  const { projector, mode } = all.find((line) => line.projector !== null) ?? { projector: null, mode: null };
  const setup = { ...defaultAgeing(projector ?? ''), serial, mode: mode ?? '', points };
  const book = bookOf([ageingPlan(setup, id)]);
  return {
    book: { ...book, sheets: book.sheets.map(calculate) },
    taken: points.length,
    without: all.filter(({ hours }) => hours === null),
  };
}

/** The rule of the cell. */
const REMARK_MAX = 100;
