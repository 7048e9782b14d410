import type { FunctionsJson } from '../engine/metadata';

/** The folder of the pane's files on the workbench's server. */
const PANE = './pane/';

/** The list of custom functions, from the file that Excel reads. */
export async function fetchMetadata(): Promise<FunctionsJson> {
  const answer = await fetch(`${PANE}functions.json`);
  if (!answer.ok) throw new Error(`The workbench lacks its functions.json (${answer.status})`);
  return (await answer.json()) as FunctionsJson;
}

/** Loads the pane into its frame, anew if it is there. Resolves when its scripts have run. */
export function openPane(frame: HTMLIFrameElement): Promise<void> {
  return new Promise((resolve) => {
    frame.addEventListener('load', () => resolve(), { once: true });
    frame.src = `${PANE}taskpane.html`;
  });
}
