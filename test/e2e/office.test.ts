import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openWorkbench, type Workbench } from './browser';
import { valueAt } from './cells';
import { toPage } from './pane';

/*
 * What the client library itself does, unchanged, in the workbench: over https with the add-in on another port, as in
 * Excel on the web, and over plain http as `npm start` serves it. Error numbers of dialogs: Office Add-ins
 * documentation, "Handle errors and events in the dialog box": 12004 another domain, 12006 closed by the person, 12007
 * already open. Those of files are the library's own (read in office.debug.js, `ooeInvalidSliceSize` and
 * `ooeIndexOutOfRange`).
 */
type Settled = { readonly status: string; readonly value?: unknown; readonly code?: number };

describe.each([
  ['https', false],
  ['plain http', true],
])('over %s', (_how, plain) => {
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await openWorkbench({ plain });
  });
  afterAll(() => workbench.close());

  test('it is ready, with what Excel on the web says of itself, and no partition key', async () => {
    const said = await workbench.pane.evaluate(async () => {
      const { host, platform } = await Office.onReady();
      const { context } = Office;
      const { partitionKey, displayLanguage } = context;
      return { host, platform, key: String(partitionKey), displayLanguage, own: context.diagnostics.version };
    });
    expect(said).toEqual({
      host: 'Excel',
      platform: 'OfficeOnline',
      key: 'undefined',
      displayLanguage: 'en-US',
      own: '0.0.0.0',
    });
  });

  /** How Office compares versions: reference of `Office.RequirementSetSupport.isSetSupported`. */
  test.each([
    ['ExcelApi', '1.9', true],
    ['ExcelApi', 1.9, true],
    ['ExcelApi', undefined, true],
    // A later minor version than 9, not an earlier one.
    ['ExcelApi', '1.10', false],
    ['ExcelApi', '2.1', false],
    ['SharedRuntime', '1.1', true],
    ['CustomFunctionsRuntime', '1.2', true],
    ['CustomFunctionsRuntime', '1.3', false],
    ['AddinCommands', '1.1', true],
    ['DialogApi', '1.2', true],
    ['CompressedFile', '1.1', true],
    // How the client library itself asks, in its handling of `delayForCellEdit`.
    ['DelayForCellEdit', undefined, true],
    ['ExcelApiOnline', '1.1', false],
    ['WordApi', '1.1', false],
  ])('%s %s: %s', async (name, version, expected) => {
    const found = await workbench.pane.evaluate(
      ([set, least]) => Office.context.requirements.isSetSupported(set as string, least as string),
      [name, version] as const,
    );
    expect(found).toBe(expected);
  });

  test('a setting is kept with the workbook when it has been saved, not before', async () => {
    const { pane } = workbench;
    const refreshed = () =>
      pane.evaluate(
        () =>
          new Promise((resolve) => {
            const { settings } = Office.context.document;
            settings.refreshAsync(() => resolve(settings.get('step')));
          }),
      );
    await pane.evaluate(() => Office.context.document.settings.set('step', { name: 'measure' }));
    expect(await refreshed()).toBeNull();
    const saved = await pane.evaluate(
      () =>
        new Promise((resolve) => {
          const { settings } = Office.context.document;
          settings.set('step', { name: 'measure' });
          settings.saveAsync((result) => resolve(String(result.status)));
        }),
    );
    expect(saved).toBe('succeeded');
    expect(await refreshed()).toEqual({ name: 'measure' });
  });

  /** Office Add-ins documentation, "Automatically open a task pane with a document". */
  test('the pane keeps in the document whether the workbook opens it', async () => {
    const { pane } = workbench;
    const kept = () =>
      pane.evaluate(
        () =>
          new Promise((resolve) => {
            const { settings } = Office.context.document;
            settings.refreshAsync(() => resolve(settings.get('Office.AutoShowTaskpaneWithDocument')));
          }),
      );
    await toPage(pane, 'program');
    const box = pane.getByLabel('Open this pane whenever this workbook is opened');
    await box.check();
    await expect.poll(kept).toBe(true);
    await box.uncheck();
    await expect.poll(kept).toBe(false);
  });

  test('the workbook comes as a file in slices; a slice too large and one that is not there are refused', async () => {
    const found = await workbench.pane.evaluate(async () => {
      const settled = (ask: (done: (result: Office.AsyncResult<unknown>) => void) => void) =>
        new Promise<Office.AsyncResult<unknown>>((resolve) => ask(resolve));
      const brief = ({ status, error }: Office.AsyncResult<unknown>): Settled => ({
        status: String(status),
        code: error?.code,
      });
      const { document } = Office.context;
      const type = 'compressed' as unknown as Office.FileType;
      const tooLarge = await settled((done) => document.getFileAsync(type, { sliceSize: 5_000_000 }, done));
      const { value } = await settled((done) => document.getFileAsync(type, { sliceSize: 1000 }, done));
      const file = value as Office.File;
      const sizes: number[] = [];
      const head: number[] = [];
      for (let at = 0; at < file.sliceCount; at++) {
        const slice = (await settled((done) => file.getSliceAsync(at, done))).value as Office.Slice;
        sizes.push(slice.size);
        if (at === 0) head.push(...(slice.data as number[]).slice(0, 2));
      }
      const beyond = await settled((done) => file.getSliceAsync(file.sliceCount, done));
      const closed = await settled((done) => file.closeAsync(done));
      return {
        tooLarge: brief(tooLarge),
        beyond: brief(beyond),
        closed: brief(closed),
        isWhole: sizes.reduce((sum, size) => sum + size, 0) === file.size && sizes.length > 3,
        head,
      };
    });
    expect(found).toEqual({
      tooLarge: { status: 'failed', code: 11002 },
      beyond: { status: 'failed', code: 5008 },
      closed: { status: 'succeeded' },
      isWhole: true,
      // "PK": a zip file.
      head: [0x50, 0x4b],
    });
  });

  test('a function computes in a cell, and says why it cannot', async () => {
    const { pane } = workbench;
    await pane.evaluate(() =>
      Excel.run(async (context) => {
        const sheet = context.workbook.worksheets.getActiveWorksheet();
        // A diffuse screen of gain 1 under 500 lx: 500/π cd/m² (Lambert's law; any photometry handbook).
        sheet.getRange('D2:D4').formulas = [
          ['=LIGHT.LUMINANCE(500,1)'],
          ['=LIGHT.LUMINANCE("x",1)'],
          ['=LIGHT.OUTPUT(F1:H3,1.44)'],
        ];
        await context.sync();
      }),
    );
    await expect.poll(() => valueAt(pane, 'Sheet1', 'D2')).toBeCloseTo(159.154943, 6);
    await expect.poll(() => valueAt(pane, 'Sheet1', 'D3')).toBe('#VALUE!');
    await expect.poll(() => valueAt(pane, 'Sheet1', 'D4')).toBe('#N/A');
  });

  test('the page can ask nothing by itself and changes no history', async () => {
    const found = await workbench.pane.evaluate(() => {
      const says = (ask: () => unknown) => {
        try {
          return String(ask());
        } catch {
          return 'refused';
        }
      };
      return [says(() => confirm('?')), says(() => alert('!')), String(history.pushState)];
    });
    expect(found).toEqual(['refused', 'refused', 'null']);
  });

  describe('a dialog', () => {
    let dialog: Page;
    const heard = () => workbench.pane.evaluate(() => (window as unknown as { heard: object[] }).heard);
    beforeAll(async () => {
      const { pane, page } = workbench;
      await pane.evaluate(() => {
        const heard: unknown[] = [];
        Object.assign(window, { heard });
        const size = { height: 40, width: 30 };
        Office.context.ui.displayDialogAsync(new URL('capture.html', location.href).href, size, (result) => {
          if (result.error) heard.push(result.error.code);
          const child = result.value;
          Object.assign(window, { child });
          child.addEventHandler(Office.EventType.DialogMessageReceived, (event) => {
            heard.push('message' in event ? event.message : event);
          });
          child.addEventHandler(Office.EventType.DialogEventReceived, (event) => {
            heard.push('error' in event ? event.error : event);
          });
        });
      });
      const opened = page.waitForEvent('popup');
      // The library asks first; the pane is away meanwhile.
      await pane.locator('#newWindowNotificaiton input').first().click();
      dialog = await opened;
      await dialog.waitForFunction(() => 'Office' in window && Office.context?.ui !== undefined);
    });

    test('tells the pane', async () => {
      await dialog.evaluate(() => Office.context.ui.messageParent('ready'));
      await expect.poll(heard).toContain('ready');
    });

    test('is told by the pane', async () => {
      await dialog.evaluate(
        () =>
          new Promise<void>((resolve) => {
            Office.context.ui.addHandlerAsync(
              Office.EventType.DialogParentMessageReceived,
              (event: { message: string }) => {
                document.title = event.message;
              },
              () => resolve(),
            );
          }),
      );
      await workbench.pane.evaluate(() =>
        (window as unknown as { child: Office.Dialog }).child.messageChild('hello'),
      );
      await expect.poll(() => dialog.title()).toBe('hello');
    });

    test.each([['a second one', 'capture.html', 12007]])('%s is refused', async (_what, page, code) => {
      const refused = await workbench.pane.evaluate(
        (name) =>
          new Promise((resolve) => {
            const address = new URL(name, location.href).href;
            Office.context.ui.displayDialogAsync(address, (result) => resolve(result.error?.code));
          }),
        page,
      );
      expect(refused).toBe(code);
    });

    test('closed by the person is told to the pane, and then another host is refused', async () => {
      await dialog.close();
      await expect.poll(heard).toContain(12006);
      const refused = await workbench.pane.evaluate(
        () =>
          new Promise((resolve) => {
            Office.context.ui.displayDialogAsync(
              'https://example.org/',
              { promptBeforeOpen: false },
              (result) => resolve(result.error?.code),
            );
          }),
      );
      expect(refused).toBe(12004);
    });
  });

  test('nothing is asked of another machine, and no error was reported', () => {
    const { requests, errors } = workbench;
    expect(requests.length).toBeGreaterThan(5);
    expect(requests.filter((address) => new URL(address).hostname !== '127.0.0.1')).toEqual([]);
    expect(errors).toEqual([]);
  });
});
