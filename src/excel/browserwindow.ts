/** The part of Office.js that opens the system's browser. */
type Program = Pick<typeof Office, 'context'>;

/**
 * Opens a page of ours in the system's browser: from the program on a computer, where a web view has no full
 * screen and may save no files. Returns false where the spreadsheet program cannot (in a browser it need not),
 * so that an ordinary link does it.
 */
export function openInBrowser(
  address: string,
  program: Program | undefined = (globalThis as { Office?: Program }).Office,
): boolean {
  const context = program?.context;
  if (!context?.requirements?.isSetSupported('OpenBrowserWindowApi', '1.1')) return false;
  context.ui.openBrowserWindow(address);
  return true;
}
