import type { FunctionsJson } from '../engine/metadata';
import { Addin } from './host/addin';
import type { Session } from './session';

/** The folder of the pane's files on the workbench's server. */
const PANE = './pane/';

/**
 * Where the add-in is served from, as the address of this page says: `?addin=https://localhost:8443/`, another port of
 * this machine as in real life another site. By itself it is served with this page.
 */
function addinFolder(): URL {
  const given = new URLSearchParams(location.search).get('addin');
  const base = new URL(given ?? location.href);
  if (base.hostname !== location.hostname)
    throw new Error(`The add-in cannot be served from ${base.hostname}`);
  return new URL(PANE, base);
}

/** How often the library hands over results: here every 0.2 s; as it does by itself with `?waves=long`, every 0.5 s. */
const SHORT_WAVES = 2;
function features(): readonly number[] {
  return new URLSearchParams(location.search).get('waves') === 'long' ? [] : [SHORT_WAVES];
}

/** The list of custom functions, from the file that Excel reads. */
export async function fetchMetadata(): Promise<FunctionsJson> {
  const answer = await fetch(`${PANE}functions.json`);
  if (!answer.ok) throw new Error(`The workbench lacks its functions.json (${answer.status})`);
  return (await answer.json()) as FunctionsJson;
}

/** Puts a pane into a frame that is not in the document yet; `query` is added to its address. */
export function startPane(session: Session, frame: HTMLIFrameElement, query = ''): void {
  frame.allow = 'clipboard-read; clipboard-write';
  const address = new URL(`taskpane.html?${query}`, addinFolder()).href;
  session.join(new Addin(frame, address, session.addinHost(features())));
}

/** Leaves nothing but an empty frame in the place of the pane. */
export function leavePane(session: Session): void {
  session.part();
  const frames = document.querySelectorAll<HTMLIFrameElement>('iframe');
  const empty = document.createElement('iframe');
  for (const name of ['id', 'title']) empty.setAttribute(name, frames[0]!.getAttribute(name)!);
  for (const frame of [...frames].slice(1)) frame.remove();
  frames[0]!.replaceWith(empty);
}

/** Loads the pane into a new frame in the place of the one that is there. Resolves when its scripts have run. */
export function openPane(session: Session): Promise<void> {
  const before = document.querySelector<HTMLIFrameElement>('#pane')!;
  const frame = before.cloneNode() as HTMLIFrameElement;
  session.part();
  startPane(session, frame);
  return new Promise((resolve) => {
    frame.addEventListener('load', () => resolve(), { once: true });
    before.replaceWith(frame);
  });
}
