import type { Line } from '../../src/csv/split';
import { countOf, fieldsOf } from '../../src/procurement/batch/columns';
import { serialKey } from '../../src/procurement/lot/serials';
import { readingOf } from '../parse/meterlog';
import { type DecimalMark, plainText } from '../parse/number';
import type { Decisions } from '../parse/target';
import { dayOf } from './logday';
import { readEntries } from './logentries';
import type { LogBatch, LogRow } from './logrow';
import type { LogColumns } from './logtable';

/**
 * A meter's own log, one reading a line, handed out in the order of the batch: all readings of a unit, field by field
 * and point by point, then those of the next. A sentence where it cannot be told whose they are.
 */
export function sequenceRows(
  data: readonly Line[],
  batch: LogBatch,
  { first: value, date, sequence }: LogColumns,
  decisions: Decisions,
  mark: DecimalMark | undefined,
): LogRow[] | string {
  const units = unitsOf(batch, sequence!);
  if (typeof units === 'string') return units;
  const { isBackwards, unit: unitColumn } = sequence!;
  const columns = { value, ...(unitColumn === undefined ? {} : { unit: unitColumn }) };
  const lines = isBackwards ? [...data].reverse() : data;
  const count = countOf(batch.readings);
  const fields = fieldsOf(batch.readings);
  const rows: LogRow[] = [];
  for (let i = 0; i * count < lines.length; i++) {
    const own = lines.slice(i * count, (i + 1) * count);
    const unit = units[i];
    const [head, tail] = [own[0]!.line, own.at(-1)!.line];
    const place = own.length === 1 ? `Line ${head}` : `Lines ${head} to ${tail}`;
    const texts = own.map(({ cells }) => readingOf(columns, cells));
    const entries = readEntries(texts, fields, batch, decisions, mark, (index) =>
      [`Line ${own[index]!.line}`, unit?.serial].filter(Boolean).join(', '),
    );
    const problems = own.flatMap(({ line, fault }) => (fault ? [`Line ${line}: ${fault}.`] : []));
    if (!unit) problems.push(`${place}: no unit of the batch is left for them.`);
    else if (own.length < count)
      problems.push(`${place}, ${unit.serial}: expected ${count} readings, came ${own.length}.`);
    for (const entry of entries) if (entry.kind === 'refused') problems.push(entry.message);
    if (entries.every(({ kind }) => kind === 'empty'))
      problems.push(`${place}: there is no reading in them.`);
    const day = date === undefined ? undefined : dayOf(plainText(own[0]!.cells[date] ?? ''));
    rows.push({
      lines: own,
      line: head,
      serial: unit?.serial ?? '',
      ...(unit ? { target: unit.at } : {}),
      isNew: false,
      entries,
      ...(day ? { date: day } : {}),
      problems,
    });
  }
  return rows;
}

/** The units that the readings are of, one after the other. */
function unitsOf(
  batch: LogBatch,
  { from, units: pinned }: NonNullable<LogColumns['sequence']>,
): { serial: string; at: number }[] | string {
  const listed = batch.serials.flatMap((text, at) => {
    const serial = serialKey(text);
    return serial === '' ? [] : [{ serial, at }];
  });
  if (pinned) return pinned.flatMap((serial) => listed.find((unit) => unit.serial === serial) ?? []);
  if (from === '') {
    const open = listed.filter(({ at }) => !batch.filled[at]);
    return open.length > 0
      ? open
      : 'Every unit of the batch has readings already: say which unit the log begins with.';
  }
  const start = listed.findIndex(({ serial }) => serial.toLowerCase() === serialKey(from).toLowerCase());
  return start >= 0
    ? listed.slice(start)
    : `“${from}” is not in the batch: the log begins with one of its units.`;
}
