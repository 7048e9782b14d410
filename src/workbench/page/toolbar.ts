import { type Book, EMPTY_SHEET } from '../../sheets/book';
import { readXlsx, writeXlsx, XlsxError } from '../../xlsx';
import { clearNotice, notice } from './notice';
import type { Session } from './session';

const TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** What a new workbook holds. */
const EMPTY: Book = { sheets: [{ ...EMPTY_SHEET, name: 'Sheet1' }], names: [] };

/**
 * The buttons New, Open and Save, for the session that the page shows by then. `replaced` is told when another
 * workbook stands in the page.
 */
export function watchToolbar(shown: () => Session, replaced: () => Promise<void>): void {
  const element = <T extends HTMLElement>(id: string): T => document.querySelector<T>(`#${id}`)!;
  const buttons = ['new', 'open', 'save'].map((id) => element<HTMLButtonElement>(id));
  const file = element<HTMLInputElement>('file');

  const start = async (): Promise<void> => {
    if (mayDiscard(shown())) await put(EMPTY, 'workbook.xlsx');
  };
  const put = async (book: Book, called: string): Promise<void> => {
    const session = shown();
    const problems = await session.replace(book);
    session.fileName = called;
    await replaced();
    if (problems.length > 0) notice(`Not everything of ${called} could be taken over. ${problems.join(' ')}`);
  };
  const open = async (): Promise<void> => {
    const chosen = file.files?.[0];
    // Empty again, so that choosing the same file once more is a change.
    const bytes = chosen && new Uint8Array(await chosen.arrayBuffer());
    file.value = '';
    if (chosen && bytes && mayDiscard(shown())) await put(await readXlsx(bytes), chosen.name);
  };
  const save = async (): Promise<void> => {
    const session = shown();
    const book = await session.workbench.toBook();
    // What is typed while the file is written is not in it.
    session.isSaved = true;
    try {
      download(await writeXlsx(book), session.fileName);
    } catch (error) {
      session.isSaved = false;
      throw error;
    }
  };
  const during = async (work: () => Promise<void>): Promise<void> => {
    clearNotice();
    for (const button of buttons) button.disabled = true;
    try {
      await shown().finishTyping();
      await work();
    } catch (error) {
      notice(error instanceof XlsxError ? `${error.message} ${error.remedy}` : String(error));
      if (!(error instanceof XlsxError)) throw error;
    } finally {
      for (const button of buttons) button.disabled = false;
    }
  };
  element('new').addEventListener('click', () => void during(start));
  element('open').addEventListener('click', () => file.click());
  element('save').addEventListener('click', () => void during(save));
  file.addEventListener('change', () => void during(open));
  window.addEventListener('beforeunload', (event) => {
    if (!shown().isSaved) event.preventDefault();
  });
}

function mayDiscard(session: Session): boolean {
  return session.isSaved || confirm('This workbook has changes that are not saved. Leave it without saving?');
}

function download(bytes: Uint8Array, name: string): void {
  const address = URL.createObjectURL(new Blob([bytes as BlobPart], { type: TYPE }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  URL.revokeObjectURL(address);
}
