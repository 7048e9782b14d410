import type { TableFilter } from '../sheets/book';

/** What a protected sheet of ours still allows: selecting everything, and making columns and rows fit. */
export const PROTECTION: Excel.WorksheetProtectionOptions = {
  allowFormatColumns: true,
  allowFormatRows: true,
  selectionMode: 'Normal',
};

/** The same, and what the arrows of a table are for. */
export function protectionOf(filter: TableFilter | undefined): Excel.WorksheetProtectionOptions {
  return filter ? { ...PROTECTION, allowAutoFilter: true, allowSort: filter.sorts } : PROTECTION;
}

/** Protects again as it was. Of the options as loaded only these two are ours to keep: the others may come back as null. */
export function protectAgain(protection: Excel.WorksheetProtection): void {
  protection.protect(asBefore(protection.options));
}

function asBefore(options: Excel.WorksheetProtectionOptions | undefined): Excel.WorksheetProtectionOptions {
  const { allowAutoFilter, allowSort } = options ?? {};
  return {
    ...PROTECTION,
    ...(allowAutoFilter === true ? { allowAutoFilter } : {}),
    ...(allowSort === true ? { allowSort } : {}),
  };
}

/** Sheets that a batch opens for as long as it writes: should it break off, they are to be protected again as they were. */
export class Opened {
  readonly #sheets: {
    readonly name: string;
    readonly options: Excel.WorksheetProtectionOptions | undefined;
  }[] = [];

  /** Opens a protected sheet. Its protection must be loaded, with its options where they are to stay. */
  open(name: string, { protection }: Excel.Worksheet, options = protection.options): void {
    if (!protection.protected) return;
    this.#sheets.push({ name, options });
    protection.unprotect();
  }

  /** Protects what stayed open. Sheets that are gone by now are nobody's to protect. */
  async close(context: Excel.RequestContext): Promise<void> {
    for (const { name, options } of this.#sheets) {
      const sheet = context.workbook.worksheets.getItemOrNullObject(name);
      sheet.protection.load('protected');
      await context.sync();
      if (sheet.isNullObject || sheet.protection.protected) continue;
      sheet.protection.protect(asBefore(options));
      await context.sync();
    }
  }
}
