import { HostError } from './host';

/*
 * A workbook opens a pane by itself where this value is stored with it and the manifest names the pane so (Office
 * Add-ins documentation, "Automatically open a task pane with a document"; AddinCommands 1.1). Only for those who have
 * the add-in: nobody else is asked to install anything.
 */
const KEY = 'Office.AutoShowTaskpaneWithDocument';

/** Whether the workbook opens the pane; undefined if nobody has said so yet. */
export function opensPane(): boolean | undefined {
  const kept: unknown = Office.context.document.settings.get(KEY);
  return typeof kept === 'boolean' ? kept : undefined;
}

/** Kept with the workbook when it is next saved. */
export function setOpensPane(opens: boolean): Promise<void> {
  const { settings } = Office.context.document;
  settings.set(KEY, opens);
  return new Promise((resolve, reject) => {
    settings.saveAsync(({ status, error }) => {
      if (String(status) === 'succeeded') resolve();
      else {
        reject(
          new HostError(
            'refused',
            'The program did not take the setting into the workbook.',
            'Is the workbook open for reading only? Save it under another name, then try again.',
            `${error?.code} ${error?.message}`,
          ),
        );
      }
    });
  });
}

/** Whether this program opens panes by itself. */
export function canOpenPane(): boolean {
  const { requirements } = Office.context;
  return (
    requirements.isSetSupported('AddinCommands', '1.1') && requirements.isSetSupported('Settings', '1.1')
  );
}
