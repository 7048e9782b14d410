/**
 * What the workbench page offers to the pane in its frame, and all that it offers. The two pages have one
 * address, so the pane's side (`office/`) takes it from the parent window and calls it directly.
 */
export interface Link {
  /**
   * Joins the client library of one window to the spreadsheet. `receive` gets the answers and the events;
   * the function returned takes the requests.
   */
  connect(receive: (text: string) => void): (request: string) => void;
  /** Takes a custom function under its id of functions.json, e.g. `OUTPUT`. */
  associate(id: string, run: (...args: unknown[]) => unknown): void;
  /** The workbook's small stored values, for `Office.context.document.settings`. */
  readonly settings: Map<string, unknown>;
  /** The workbook as an .xlsx file, as the button Save would write it. */
  file(): Promise<Uint8Array>;
  /** A name for whose workbench this is, part of the container names of stored preferences. */
  readonly partition: string;
}

declare global {
  interface Window {
    workbenchLink?: Link;
  }
}

/** The link of the window that holds the pane, or of the window that opened this dialog. */
export function findLink(from: Window): Link {
  const opener = from.opener as Window | null;
  const link = from.parent.workbenchLink ?? opener?.parent.workbenchLink;
  if (!link)
    throw new Error('This page belongs beside the spreadsheet of the workbench; open the workbench instead.');
  return link;
}
