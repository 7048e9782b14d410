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
  interface Message {
    readonly id?: number;
    readonly type: number;
    readonly message: { readonly body?: string | object };
  }
  interface Link {
    connect(receive: (text: string) => void): (request: string) => void;
  }
  /** `Range.values = …` as the client library sends it: a property that is set. */
  const SET = 4;
  const REQUEST = 1;
  /** Each pane counts its requests from 1; on the one wire they must differ. */
  const APART = 1_000_000;

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
  const losing = new Set<number>();
  const receivers: ((text: string) => void)[] = [];
  let link: Link | undefined;
  let send: ((request: string) => void) | undefined;

  const answer = (text: string) => {
    const message = JSON.parse(text) as Message;
    if (message.type !== REQUEST) {
      for (const receive of receivers) receive(text);
      return;
    }
    if (losing.delete(message.id!)) {
      state.lost++;
      return;
    }
    const [person, id] = [Math.floor(message.id! / APART), message.id! % APART];
    receivers[person]!(JSON.stringify({ ...message, id }));
  };
  const valuesIn = ({ message }: Message): unknown[] => {
    const body = typeof message.body === 'string' ? JSON.parse(message.body) : message.body;
    const { Actions = [] } = (body ?? {}) as {
      Actions?: { ActionType: number; Name: string; ArgumentInfo?: { Arguments?: unknown[] } }[];
    };
    return Actions.filter(({ ActionType, Name }) => ActionType === SET && Name === 'Values').flatMap(
      ({ ArgumentInfo }) => (ArgumentInfo?.Arguments ?? []).flat(2),
    );
  };
  const connect = (own: Link) => (receive: (text: string) => void) => {
    const person = receivers.push(receive) - 1;
    send ??= own.connect(answer);
    return (request: string) => {
      const message = JSON.parse(request) as Message;
      if (message.type !== REQUEST) {
        send!(request);
        return;
      }
      if (state.refusal !== '') {
        state.refused++;
        const error = { Code: state.refusal, Message: '', Location: '', ActionIndex: 0, HttpStatusCode: 429 };
        const body = JSON.stringify({ Results: [], TraceIds: [], Error: error });
        setTimeout(() =>
          receive(
            JSON.stringify({
              id: message.id,
              type: REQUEST,
              message: { statusCode: 200, headers: {}, body },
            }),
          ),
        );
        return;
      }
      const id = person * APART + message.id!;
      const values = valuesIn(message);
      state.written.push(...values);
      if (values.length > 0 && state.losing > 0) {
        state.losing--;
        losing.add(id);
      }
      send!(JSON.stringify({ ...message, id }));
    };
  };
  Object.assign(window, { lightWire: state });
  Object.defineProperty(window, 'workbenchLink', {
    get: () => link,
    set: (own: Link) => {
      const joined = connect(own);
      link = Object.create(own, { connect: { value: joined } }) as Link;
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
    frame.src = './pane/taskpane.html?person=2';
    frame.style.cssText = 'position:fixed;left:0;bottom:0;width:400px;height:600px;background:#fff;z-index:9';
    document.body.append(frame);
    return frame;
  });
  const frame = await element.contentFrame();
  if (!frame) throw new Error('The second pane has no frame');
  await frame.waitForSelector('nav[aria-label="Steps"]');
  return frame;
}
