import { lostSeals } from '../audit/seal/lost';
import type { SheetView } from '../audit/view';
import type { Book } from '../sheets/book';
import { Failure } from './failure';

/** The sheets of ours that a command is about: those asked for by name, or all. @throws Failure */
export function chosenOf(
  ours: readonly SheetView[],
  { path, sheets }: { readonly path: string; readonly sheets: readonly string[] },
): readonly SheetView[] {
  if (ours.length === 0) throw new Failure(`${path} has no sheet of ours.`, 'Was it built by this tool?');
  const names = ours.map(({ sheet }) => sheet.name);
  const missing = sheets.find((name) => !names.includes(name));
  if (missing !== undefined)
    throw new Failure(`There is no sheet of ours called "${missing}".`, sheetList(names));
  return sheets.length === 0 ? ours : ours.filter(({ sheet }) => sheets.includes(sheet.name));
}

/**
 * The same for whoever judges a workbook: one that remembers seals of sheets that are gone has something to tell, though
 * no sheet of it is ours any more.
 */
export function judgedOf(
  book: Book,
  ours: readonly SheetView[],
  asked: { readonly path: string; readonly sheets: readonly string[] },
): readonly SheetView[] {
  const isBereft = ours.length === 0 && asked.sheets.length === 0 && lostSeals(book).length > 0;
  return isBereft ? [] : chosenOf(ours, asked);
}

/** What there is, for somebody who asked for a sheet that is not there. */
export function sheetList(names: readonly string[]): string {
  return `The sheets are ${names.map((name) => `"${name}"`).join(', ')}.`;
}
