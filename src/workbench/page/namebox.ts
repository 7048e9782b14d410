import type { IDefinedNamesService } from '@univerjs/preset-sheets-core';
import { absolute, addressOf, cellName } from '../../sheets/address';
import type { Engine } from '../engine/engine';
import { internalName, type Name, parseInternal } from '../engine/names';
import { parseReference, sheetPrefix } from '../engine/reference';

/** Where a person reads and types names; only what happens there is answered in the workbook's own words. */
const NAME_BOX = '#grid [data-u-comp="defined-name"]';

/**
 * Lets the name box show and take names as they were written, `WhiteReadings`, of the sheet in front. The
 * engine itself goes on asking for its internal names, `WhiteReadings.7`.
 */
export function showWrittenNames(engine: Engine, service: IDefinedNamesService): void {
  const byReference = service.getDefinedNameByRefString.bind(service);
  const byName = service.getValueByName.bind(service);
  const focus = service.focusRange.bind(service);
  const ours = (internal: string): Name | undefined => {
    const serial = parseInternal(internal)?.serial;
    return serial === undefined ? undefined : engine.names.bySerial(serial);
  };
  // Only the name box asks by place.
  service.getDefinedNameByRefString = (unit, reference) => {
    const found = byReference(unit, firstOfMerged(engine, reference));
    return found && { ...found, name: ours(found.name)?.name ?? found.name };
  };
  service.getValueByName = (unit, name) => {
    const found = byName(unit, name);
    if (found || !document.activeElement?.closest(NAME_BOX)) return found;
    const meant = engine.names.resolve(name, engine.activeSheet.id);
    const item = meant && byName(unit, internalName(meant));
    return item ? { ...item, name: meant.name } : null;
  };
  // The spreadsheet's own way loses its way on sheets with a comma in their name.
  service.focusRange = (unit, id) => {
    const place = parseReference(ours(id)?.refersTo ?? '');
    const sheet = place && engine.sheetByName(place.sheet);
    if (place && sheet) engine.select(sheet, place.rect);
    else focus(unit, id);
  };
}

/** A merged cell is selected as a whole; names of ours mean its first cell. */
function firstOfMerged(engine: Engine, reference: string): string {
  const place = parseReference(reference);
  const sheet = place && engine.sheetByName(place.sheet);
  if (!place || !sheet) return reference;
  const isMerged = sheet.merges().some((merge) => addressOf(merge) === addressOf(place.rect));
  return isMerged
    ? sheetPrefix(sheet.name) + absolute(cellName(place.rect.row, place.rect.column))
    : reference;
}
