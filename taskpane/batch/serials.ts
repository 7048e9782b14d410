import { SERIAL_MAX, serialKey } from '../../src/procurement/lot/serials';
import { BATCH_UNITS, type BatchUnit } from '../../src/sheets/batch/setup';
import { TEXT_MAX } from '../../src/sheets/setup/fields';

/** Errors told in full; more are counted. */
const TOLD = 5;

/** Units of a new batch as typed or pasted: one a line, the serial number first, a place behind a tab or semicolon. */
export interface UnitList {
  readonly units: readonly BatchUnit[];
  readonly problems: readonly string[];
}

export function unitList(text: string): UnitList {
  const units: BatchUnit[] = [];
  const problems: string[] = [];
  const lines = new Map<string, number>();
  text.split(/\r\n?|\n/).forEach((line, i) => {
    if (line.trim() === '') return;
    const [first = '', ...rest] = line.split(/[\t;]/);
    const serial = serialKey(first);
    const place = rest
      .map((part) => part.trim())
      .filter(Boolean)
      .join(', ');
    const at = `Line ${i + 1}`;
    if (serial === '') problems.push(`${at} has no serial number.`);
    else if (serial.length > SERIAL_MAX)
      problems.push(`${at}: a serial number has at most ${SERIAL_MAX} characters.`);
    else if (lines.has(serial))
      problems.push(`${at}: “${serial}” stands in line ${lines.get(serial)} already.`);
    if (place.length > TEXT_MAX) problems.push(`${at}: a place has at most ${TEXT_MAX} characters.`);
    lines.set(serial, lines.get(serial) ?? i + 1);
    units.push({ serial, ...(place ? { place } : {}) });
  });
  if (units.length > BATCH_UNITS.max)
    problems.push(
      `One sheet holds ${BATCH_UNITS.max} units; there are ${units.length}. Make several batches.`,
    );
  const more = problems.length - TOLD;
  return {
    units,
    problems: more > 0 ? [...problems.slice(0, TOLD), `And ${more} more like these.`] : problems,
  };
}
