/*
 * Runs in the pane and in dialogs before office.js, and over plain http only: see `plainhttp.ts`. A dialog is asked for
 * under its https name and opened under the one it is served by.
 */
import { nameSendersSecure, secure, served } from './plainhttp';

/** The part of the library that opens a dialog; it is asked with the dialog's address in a JSON text. */
interface Delegate {
  openDialog(asked: { targetId: string }): void;
}
declare const OSF: { readonly DDA?: { readonly WAC?: { readonly Delegate?: Delegate } } } | undefined;

if (location.protocol === 'http:') {
  nameSendersSecure();
  const open = window.open.bind(window);
  window.open = (address, ...rest) => open(served(String(address)), ...rest);
  document.addEventListener('load', takePlainDialogs, true);
}

/** When the host script has come, and before anybody can use it. */
function takePlainDialogs(): void {
  const delegate = typeof OSF === 'undefined' ? undefined : OSF.DDA?.WAC?.Delegate;
  if (!delegate?.openDialog) return;
  document.removeEventListener('load', takePlainDialogs, true);
  const open = delegate.openDialog;
  delegate.openDialog = (asked) => {
    const info = JSON.parse(asked.targetId) as { url: string };
    open(Object.assign(asked, { targetId: JSON.stringify({ ...info, url: secure(info.url) }) }));
  };
}
