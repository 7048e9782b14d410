import type { FUniver } from '@univerjs/core/facade';

/** Commands of the engine: rows whose heights are to be fitted bit by bit, and that they are no longer. */
const FIT = 'sheet.operation.mark-dirty-row-auto-height';
const LEAVE = 'sheet.operation.cancel-mark-dirty-row-auto-height';

interface Fitting {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly id: string;
}

/** More than are ever under way at a time. */
const KEPT = 100;

/** The engine fits heights when it is idle, also those of a sheet that has gone meanwhile, and fails there. */
export function leaveHeightsOfGone(api: FUniver): void {
  const fittings: Fitting[] = [];
  api.addEvent(api.Event.CommandExecuted, ({ id, params }) => {
    if (id !== FIT) return;
    fittings.push(params as unknown as Fitting);
    if (fittings.length > KEPT) fittings.shift();
  });
  api.addEvent(api.Event.BeforeSheetDelete, ({ worksheet }) => {
    const sheet = worksheet.getSheetId();
    for (const { unitId, subUnitId, id } of fittings)
      if (subUnitId === sheet) api.syncExecuteCommand(LEAVE, { unitId, id });
  });
}
