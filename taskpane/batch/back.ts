import type { CellBlock } from '../../src/excel/host';
import type { BatchUnit } from '../../src/sheets/batch/setup';
import type { TakenRun } from '../../src/sheets/batch/unitrun';
import type { CellName } from '../../src/sheets/names/all';
import type { UnitLine } from './view';

interface BackOptions {
  /** Name of the run sheet. */
  readonly from: string;
  readonly today: string;
  /** What the line's remark says so far. */
  readonly remark: string;
  readonly max: number;
}

/**
 * The cells of a batch that a run sheet's readings fill, with a remark of where they came from. A place and a date
 * that stand there already stay.
 */
export function backBlocks(
  taken: TakenRun,
  { line, serial }: UnitLine,
  unit: BatchUnit | undefined,
  { from, today, remark, max }: BackOptions,
): { readonly blocks: readonly CellBlock[]; readonly report: string } {
  const at = (name: CellName, value: string | number | undefined): CellBlock[] =>
    value === undefined ? [] : [{ name, row: line, column: 0, values: [[value]] }];
  const said = [`From run sheet “${from}”, ${today}`, ...taken.remarks].join('; ');
  const whole = [remark, said].filter(Boolean).join(' | ');
  // A remark that is full keeps what a person wrote.
  const isRoom = whole.length <= max;
  const lacking = taken.lacking > 0 ? ` ${taken.lacking} it does not have yet stay as they were.` : '';
  const notes = taken.remarks.length > 0 ? ` Note: ${taken.remarks.join('; ')}.` : '';
  return {
    blocks: [
      { name: 'Readings', row: line, column: 0, values: [taken.readings] },
      ...at('RangeFactors', taken.range),
      ...at('AmbientReadings', taken.ambient),
      ...at('UnitPlaces', unit?.place ? undefined : taken.place),
      ...at('UnitDates', unit?.date ? undefined : taken.date),
      ...at('UnitRemark', isRoom ? whole : undefined),
    ],
    report: `${taken.taken} readings of “${from}” are in the line of ${serial} now.${lacking}${notes}${isRoom ? '' : ' The line’s remark is full: note there yourself where they came from.'}`,
  };
}
