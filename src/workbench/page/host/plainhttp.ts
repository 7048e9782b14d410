/*
 * The client library speaks to a host over https only. `npm start` serves plain http, so that nobody meets a warning
 * about a certificate; there the two windows of this one address call it https to each other. Nothing of the library is
 * changed, and over https none of this does anything.
 */

/** An address as the library is told of it. */
export function secure(address: string): string {
  return address.replace(/^http:/, 'https:');
}
/** The address as it is served. */
export function served(address: string): string {
  return location.protocol === 'http:' ? address.replace(/^https:/, 'http:') : address;
}

/** Lets others post to this window under its https name. */
export function takeSecurePosts(): void {
  if (location.protocol !== 'http:') return;
  const post = window.postMessage.bind(window) as (data: unknown, target: string) => void;
  window.postMessage = (data: unknown, target?: unknown) => post(data, served(String(target)));
}

/** Raises messages of windows of this address anew, as from its https name. Must be called before others listen. */
export function nameSendersSecure(): void {
  if (location.protocol !== 'http:') return;
  window.addEventListener(
    'message',
    (event) => {
      if (event.origin !== location.origin) return;
      event.stopImmediatePropagation();
      const { data, source } = event;
      window.dispatchEvent(new MessageEvent('message', { data, source, origin: secure(event.origin) }));
    },
    true,
  );
}
