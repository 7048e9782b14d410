import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openWorkbench, type Workbench } from './browser';

/*
 * Error numbers: Office Add-ins documentation, "Handle errors and events in the dialog box": 12004 another
 * domain, 12006 closed by the person, 12007 already open.
 */
let workbench: Workbench;
let dialog: Page;
beforeAll(async () => {
  workbench = await openWorkbench();
  const opened = workbench.page.waitForEvent('popup');
  await workbench.pane.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const heard: unknown[] = [];
        Object.assign(window, { heard });
        Office.context.ui.displayDialogAsync(
          `${location.href}?dialog`,
          { height: 40, width: 30 },
          (result) => {
            if (result.error) return reject(new Error(String(result.error.code)));
            const child = result.value;
            Object.assign(window, { child });
            child.addEventHandler(Office.EventType.DialogMessageReceived, (event) => heard.push(event));
            child.addEventHandler(Office.EventType.DialogEventReceived, (event) => heard.push(event));
            resolve();
          },
        );
      }),
  );
  dialog = await opened;
  await dialog.waitForFunction(() => 'Office' in window && Office.context !== undefined);
});
afterAll(() => workbench.close());

const heard = () => workbench.pane.evaluate(() => (window as unknown as { heard: object[] }).heard);

test('a dialog tells the pane', async () => {
  await dialog.evaluate(() => Office.context.ui.messageParent('ready'));
  await expect.poll(heard).toMatchObject([{ message: 'ready' }]);
});

test('the pane tells the dialog', async () => {
  await dialog.evaluate(() => {
    Office.context.ui.addHandlerAsync(
      Office.EventType.DialogParentMessageReceived,
      (event: { message: string }) => {
        document.title = event.message;
      },
    );
  });
  await workbench.pane.evaluate(() =>
    (window as unknown as { child: Office.Dialog }).child.messageChild('hello'),
  );
  await expect.poll(() => dialog.title()).toBe('hello');
});

test.each([
  ['a second dialog', 'taskpane.html', 12007],
  ['a page of another host', 'https://example.org/', 12004],
])('%s is refused', async (_what, address, code) => {
  const refused = await workbench.pane.evaluate(
    (url) =>
      new Promise((resolve) => {
        Office.context.ui.displayDialogAsync(url, (result) => resolve(result.error?.code));
      }),
    address,
  );
  expect(refused).toBe(code);
});

test('closing the window is told to the pane', async () => {
  await dialog.close();
  await expect.poll(heard).toMatchObject([{ message: 'ready' }, { error: 12006 }]);
});
