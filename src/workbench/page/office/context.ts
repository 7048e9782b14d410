import type { Link } from '../link';
import { addHandlerAsync, displayDialogAsync, messageParent } from './dialog';
import { fileOf } from './file';
import { isSetSupported } from './requirements';
import { settings } from './settings';
import { strict } from './strict';

/** `Office.context` of the workbench: the members the pane uses, and an error for every other. */
export function contextOf(link: Link, isDialog: boolean): Office.Context {
  const requirements = strict('Office.context.requirements', { isSetSupported });
  const ui = isDialog
    ? strict('Office.context.ui', { messageParent, addHandlerAsync })
    : strict('Office.context.ui', { displayDialogAsync });
  return strict('Office.context', {
    host: 'Excel',
    platform: 'OfficeOnline',
    diagnostics: strict('Office.context.diagnostics', {
      host: 'Excel',
      platform: 'OfficeOnline',
      version: 'workbench',
    }),
    displayLanguage: 'en-US',
    contentLanguage: 'en-US',
    isDialog,
    partitionKey: link.partition,
    // Excel on the web gives none either (office-js #6134).
    officeTheme: undefined,
    requirements,
    ui,
    document: strict('Office.context.document', {
      // A workbook here was never saved to a place.
      url: '',
      settings: strict('Settings', settings(link.settings)),
      getFileAsync: fileOf(() => link.file()),
    }),
  }) as unknown as Office.Context;
}
