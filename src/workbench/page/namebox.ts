import type { IDefinedNamesService } from '@univerjs/preset-sheets-core';
import type { Engine } from '../engine/engine';
import { internalName, parseInternal } from '../engine/names';

/** Where a person reads and types names; only what happens there is answered in the workbook's own words. */
const NAME_BOX = '#grid [data-u-comp="defined-name"]';

/**
 * Lets the name box show and take names as they were written, `WhiteReadings`, of the sheet in front. The
 * engine itself goes on asking for its internal names, `WhiteReadings.7`.
 */
export function showWrittenNames(engine: Engine, service: IDefinedNamesService): void {
  const byReference = service.getDefinedNameByRefString.bind(service);
  const byName = service.getValueByName.bind(service);
  const written = <T extends { name: string }>(item: T): T => {
    const serial = parseInternal(item.name)?.serial;
    const name = serial === undefined ? undefined : engine.names.bySerial(serial);
    return name ? { ...item, name: name.name } : item;
  };
  // Only the name box asks by place.
  service.getDefinedNameByRefString = (unit, reference) => {
    const found = byReference(unit, reference);
    return found && written(found);
  };
  service.getValueByName = (unit, name) => {
    const found = byName(unit, name);
    if (found || !document.activeElement?.closest(NAME_BOX)) return found;
    const meant = engine.names.resolve(name, engine.activeSheet.id);
    const item = meant && byName(unit, internalName(meant));
    return item ? written(item) : null;
  };
}
