import type { CellBlock } from '../../src/excel/host';
import type { BatchReadings } from '../../src/procurement/batch/columns';
import type { CellValue } from '../../src/sheets/book';
import { dayNumber } from '../../src/sheets/days';
import type { CellName } from '../../src/sheets/names/all';
import type { Entry } from '../parse/cell';
import { type LogRow, offsetOf } from './logrow';

/** Rows of one block, so that a long log goes out in parts. */
const BLOCK_ROWS = 400;

/**
 * The cells that clean lines of a log fill. What a line does not have stays as it is on the sheet; where a row has no
 * remark yet, it gets one that says where the readings came from.
 */
export function blocksOf(
  rows: readonly LogRow[],
  readings: BatchReadings,
  remarks: readonly CellValue[],
  source: string,
): CellBlock[] {
  const sorted = [...rows].sort((a, b) => a.target! - b.target!);
  const cells = sorted.flatMap((row): CellBlock[] => {
    const at = (name: CellName, value: CellValue | undefined): CellBlock[] =>
      value === undefined ? [] : [{ name, row: row.target!, column: 0, values: [[value]] }];
    const isUntold = remarks[row.target!] === null || remarks[row.target!] === undefined;
    return [
      ...at('Serials', row.isNew ? row.serial : undefined),
      ...at('UnitPlaces', row.place),
      ...at('UnitHours', row.hours),
      ...at('UnitDates', row.date === undefined ? undefined : dayNumber(row.date)),
      ...at('RangeFactors', row.range),
      ...at('AmbientReadings', row.ambient),
      ...at('UnitRemark', isUntold ? `${source}, line ${row.line}` : undefined),
      {
        name: 'Readings',
        row: row.target!,
        column: offsetOf(row, readings),
        values: [row.entries.map(written)],
      },
    ];
  });
  return joined(cells);
}

function written(entry: Entry): CellValue {
  if (entry.kind === 'number') return entry.value;
  return entry.kind === 'over' ? 'over' : null;
}

/** Rows that follow one another with the same columns become one block. */
function joined(cells: readonly CellBlock[]): CellBlock[] {
  const open = new Map<string, { name: CellName; row: number; column: number; values: CellValue[][] }>();
  const done: CellBlock[] = [];
  for (const { name, row, column, values } of cells) {
    const key = `${name} ${column} ${values[0]!.length}`;
    const block = open.get(key);
    if (block && block.row + block.values.length === row && block.values.length < BLOCK_ROWS) {
      block.values.push([...values[0]!]);
      continue;
    }
    if (block) done.push(block);
    open.set(key, { name, row, column, values: [[...values[0]!]] });
  }
  return [...done, ...open.values()];
}
