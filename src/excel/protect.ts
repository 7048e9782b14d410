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
  const { allowAutoFilter, allowSort } = protection.options ?? {};
  protection.protect({
    ...PROTECTION,
    ...(allowAutoFilter === true ? { allowAutoFilter } : {}),
    ...(allowSort === true ? { allowSort } : {}),
  });
}
