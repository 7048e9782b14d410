import type { Frame, Page } from 'playwright-core';

/*
 * Stands between the client library of a pane and the workbench, and does to their messages what a spreadsheet
 * program under load does. It also lets a second person in: another pane beside the first, with a storage of its
 * own, as on another computer.
 */

/** What the script leaves on the workbench's page. */
interface Wire {
  /** Code with which every request is refused, undone; empty for none. */
  refusal: string;
  /** So many of the next requests that write cells are done, and their answers lost. */
  losing: number;
  /** Every value that really went into cells. */
  readonly written: unknown[];
  /** Requests that were refused, and answers that were lost. */
  refused: number;
  lost: number;
}
type Wired = Window & { lightWire: Wire };

/** For `openWorkbench({ script })`. */
export function wire(): void {
  interface Request {
    readonly body: string;
  }
  interface Batches {
    run(request: Request): Promise<string>;
  }
  interface Host {
    readonly batches: Batches;
  }
  /** `Range.values = …` as the client library sends it: a property that is set. */
  const SET = 4;

  const opener = window.opener as Window | null;
  const home = opener ?? window;
  if (home.location.search.includes('person=2')) {
    const kept = new Map<string, string>();
    const own = {
      get length() {
        return kept.size;
      },
      key: (index: number) => [...kept.keys()][index] ?? null,
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => kept.set(key, value),
      removeItem: (key: string) => kept.delete(key),
    };
    const storage = opener ? (opener as unknown as { localStorage: unknown }).localStorage : own;
    Object.defineProperty(window, 'localStorage', { value: storage });
  }
  if (window.parent !== window || opener) return;

  const state: Wire = { refusal: '', losing: 0, written: [], refused: 0, lost: 0 };
  const valuesIn = (body: string): unknown[] => {
    const { Actions = [] } = JSON.parse(body) as {
      Actions?: { ActionType: number; Name: string; ArgumentInfo?: { Arguments?: unknown[] } }[];
    };
    return Actions.filter(({ ActionType, Name }) => ActionType === SET && Name === 'Values').flatMap(
      ({ ArgumentInfo }) => (ArgumentInfo?.Arguments ?? []).flat(2),
    );
  };
  const faulty = (batches: Batches) => {
    const run = batches.run;
    batches.run = async (request) => {
      if (state.refusal !== '') {
        state.refused++;
        const error = { Code: state.refusal, Message: '', Location: '', ActionIndex: 0, HttpStatusCode: 429 };
        return JSON.stringify({ Results: [], TraceIds: [], Error: error });
      }
      const values = valuesIn(request.body);
      state.written.push(...values);
      const isLost = values.length > 0 && state.losing > 0;
      if (isLost) state.losing--;
      const answer = await run(request);
      if (!isLost) return answer;
      state.lost++;
      return new Promise(() => undefined);
    };
  };
  let host: Host | undefined;
  Object.assign(window, { lightWire: state });
  Object.defineProperty(window, 'workbench', {
    get: () => host,
    set: (own: Host) => {
      faulty(own.batches);
      host = own;
    },
  });
}

/** Refuses everything with a code of Office.js until the promise returned is called. */
export async function refuse(page: Page, code: string): Promise<() => Promise<void>> {
  const set = (refusal: string) =>
    page.evaluate((text) => {
      (window as unknown as Wired).lightWire.refusal = text;
    }, refusal);
  await set(code);
  return () => set('');
}

/** The answers to the next requests that write cells are lost, the cells are written. */
export async function loseReplies(page: Page, count: number): Promise<void> {
  await page.evaluate((number) => {
    (window as unknown as Wired).lightWire.losing = number;
  }, count);
}

/** How it went on the wire. */
export function onWire(page: Page): Promise<Wire> {
  return page.evaluate(() => (window as unknown as Wired).lightWire);
}

/** Another person's pane in the same workbook. */
export async function secondPane(page: Page): Promise<Frame> {
  const element = await page.evaluateHandle(() => {
    const frame = document.createElement('iframe');
    (
      window as unknown as { workbench: { startPane(frame: HTMLIFrameElement, more: string): void } }
    ).workbench.startPane(frame, 'person=2');
    frame.style.cssText = 'position:fixed;left:0;bottom:0;width:400px;height:600px;background:#fff;z-index:9';
    document.body.append(frame);
    return frame;
  });
  const frame = await element.contentFrame();
  if (!frame) throw new Error('The second pane has no frame');
  await frame.waitForSelector('nav[aria-label="Places"]');
  return frame;
}
