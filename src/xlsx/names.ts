import type { NamedRange } from 'hucre';
import { absolute, quoteSheet } from '../sheets/address';
import type { Book, BookSheet, DefinedName } from '../sheets/book';
import { showFormula, storeFormula } from './formula';
import { showText, storeText } from './text';
import { elements } from './xml';

/** A name as the library takes it, and whether it is hidden, which the library cannot say. */
export interface StoredName extends NamedRange {
  readonly isHidden: boolean;
}

/** All names of a workbook in the order in which they will stand in the file, print areas among them. */
export function storeNames(book: Book): StoredName[] {
  return [
    ...book.names.map((name) => storeName(name)),
    ...book.sheets.flatMap((sheet) => [
      ...sheet.names.map((name) => storeName(name, sheet.name)),
      ...builtIn(sheet),
    ]),
  ];
}

/** Names by which a file says more of a sheet (ECMA-376, part 1, 18.2.5): what is printed, what is filtered. */
function builtIn({ name: scope, print, filter }: BookSheet): StoredName[] {
  const own = (name: string, area: string | undefined, isHidden = false): StoredName[] =>
    area === undefined
      ? []
      : [{ name: `_xlnm.${name}`, range: `${quoteSheet(scope)}!${area}`, scope, isHidden }];
  const repeated = [print?.titleColumns, print?.titles].flatMap(
    (each) => each?.replace(/(\w+)/g, '$$$1') ?? [],
  );
  const titles = own('Print_Titles', repeated.join(`,${quoteSheet(scope)}!`) || undefined);
  return [
    // The library's own print area forgets to quote the sheet name.
    ...own('Print_Area', print && absolute(print.area)),
    ...titles,
    // LibreOffice takes a filter from it alone.
    ...own('_FilterDatabase', filter && absolute(filter.range), true),
  ];
}

function storeName({ name, refersTo, comment, hidden }: DefinedName, scope?: string): StoredName {
  return {
    name,
    range: storeFormula(refersTo),
    ...(scope === undefined ? {} : { scope }),
    ...(comment === undefined ? {} : { comment: storeText(comment) }),
    isHidden: hidden === true,
  };
}

export interface ShownName extends DefinedName {
  /** Position of the sheet it belongs to; undefined for a name of the whole workbook. */
  readonly sheet?: number;
}

/**
 * The names in workbook.xml. The library reads them too, but drops the hidden flag and loses its way in a print
 * area whose sheet name has a comma; so we read this one element ourselves. Macro names are left out.
 */
export function showNames(workbookXml: string): ShownName[] {
  return elements(workbookXml, 'definedName').flatMap(({ attribute, text }) => {
    const isOn = (key: string) => ['1', 'true'].includes(attribute(key) ?? '');
    const name = attribute('name');
    const sheet = attribute('localSheetId');
    const comment = attribute('comment');
    if (!name || isOn('function') || isOn('vbProcedure')) return [];
    return [
      {
        name,
        refersTo: showFormula(text.trim()),
        ...(comment ? { comment: showText(comment) } : {}),
        ...(isOn('hidden') ? { hidden: true } : {}),
        ...(sheet === undefined ? {} : { sheet: Number(sheet) }),
      },
    ];
  });
}
