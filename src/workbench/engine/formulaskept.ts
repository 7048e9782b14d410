import type { ICellData } from '@univerjs/core';
import type { FormulaDataModel, IFormulaData } from '@univerjs/preset-sheets-core';
import type { CellTable } from './port';

/** The part of the engine's commands that is listened to here. */
export interface Commands {
  beforeCommandExecuted(listener: (command: Command) => void): unknown;
  onCommandExecuted(listener: (command: Command) => void): unknown;
}
interface Command {
  readonly id: string;
  readonly type?: number;
  readonly params?: object;
}

/** `CommandType.MUTATION` of @univerjs/core: what changes a workbook. */
const MUTATION = 2;
const WRITE = 'sheet.mutation.set-range-values';
/** Mutations after which every formula stands where it stood, in the words in which it stood. */
const HARMLESS = new Set([
  'formula.mutation.set-array-formula-data',
  'formula.mutation.set-formula-calculation-start',
  'formula.mutation.set-trigger-formula-calculation-start',
  'formula.mutation.set-formula-calculation-stop',
  'formula.mutation.set-formula-calculation-notification',
  'formula.mutation.set-formula-calculation-result',
  'formula.mutation.set-formula-string-batch-calculation',
  'formula.mutation.set-formula-string-batch-calculation-result',
  'formula.mutation.set-image-formula-data',
  'sheet.mutation.set-worksheet-col-width',
  'sheet.mutation.set-worksheet-row-height',
  'sheet.mutation.set-worksheet-row-auto-height',
  'sheet.mutation.set-worksheet-row-is-auto-height',
]);

interface Write {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly cellValue?: CellTable;
}

/**
 * All formulas of the workbook, gathered once. The engine goes through every cell for them at each write and at each
 * calculation. Here they are gathered anew after something that may have changed one; what is not known to leave
 * formulas alone counts as that.
 */
export class FormulasKept {
  #kept: IFormulaData | undefined;

  constructor(model: FormulaDataModel, commands: Commands) {
    const gather = model.getFormulaData.bind(model);
    model.getFormulaData = () => {
      this.#kept ??= gather();
      return this.#kept;
    };
    const update = model.updateFormulaData.bind(model);
    model.updateFormulaData = (unitId, subUnitId, cellValue) => {
      if (!this.#changes({ unitId, subUnitId, cellValue: cellValue as CellTable })) return {};
      // The engine writes into what it gathered.
      this.#kept = undefined;
      const updated = update(unitId, subUnitId, cellValue);
      this.#kept = undefined;
      return updated;
    };
    const listen = ({ id, type, params }: Command) => {
      if (type !== MUTATION || HARMLESS.has(id)) return;
      if (id === WRITE && !this.#changes(params as Write)) return;
      this.#kept = undefined;
    };
    commands.beforeCommandExecuted(listen);
    commands.onCommandExecuted(listen);
  }

  /** Whether these formulas are still those of the workbook. */
  isCurrent(formulas: IFormulaData): boolean {
    return formulas === this.#kept;
  }

  /** Whether a write puts a formula into a cell, or takes the place of one. */
  #changes({ unitId, subUnitId, cellValue }: Write): boolean {
    if (!this.#kept) return true;
    const there = this.#kept[unitId]?.[subUnitId];
    for (const [row, line] of Object.entries(cellValue ?? {})) {
      const standing = there?.[Number(row)];
      for (const [column, cell] of Object.entries(line as Record<string, ICellData | null>)) {
        if (cell?.f || cell?.si) return true;
        const isTaken = cell === null || 'f' in cell || 'si' in cell || 'p' in cell;
        if (isTaken && standing?.[Number(column)]) return true;
      }
    }
    return false;
  }
}
