import { expect, test } from 'vitest';
import { createTestHost } from './client';

type Host = ReturnType<typeof createTestHost>;

/** Collects what `collection` tells until `count` have come. */
async function listen(
  host: Host,
  add: (worksheets: Excel.WorksheetCollection, tell: (event: unknown) => void) => unknown,
) {
  const heard: Record<string, unknown>[] = [];
  let arrived: () => void = () => {};
  await host.run(async (context) => {
    add(context.workbook.worksheets, (event) => {
      heard.push(event as Record<string, unknown>);
      arrived();
    });
    await context.sync();
  });
  const until = async (count: number) => {
    while (heard.length < count) {
      await new Promise<void>((resolve) => {
        arrived = resolve;
      });
    }
    return heard;
  };
  return { heard, until };
}

test('onChanged tells of writes by an add-in and by a person', async () => {
  const host = createTestHost();
  const { until } = await listen(host, (worksheets, tell) =>
    worksheets.onChanged.add(async (event) => tell(event)),
  );
  await host.run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').getRange('B2:B3').values = [[1], [2]];
    await context.sync();
  });
  await host.workbench.typeInto('Sheet1', 'B2', '7');
  const [written, typed] = await until(2);
  expect(written).toMatchObject({
    address: 'B2:B3',
    source: 'Local',
    changeType: 'RangeEdited',
    triggerSource: 'ThisLocalAddin',
  });
  expect(typed).toMatchObject({
    address: 'B2',
    source: 'Local',
    triggerSource: 'Unknown',
    details: { valueBefore: 1, valueAfter: 7 },
    worksheetId: host.engine.activeSheet.id,
  });
});

test('onCalculated tells which sheet was computed', async () => {
  const host = createTestHost();
  const { until } = await listen(host, (worksheets, tell) =>
    worksheets.onCalculated.add(async (event) => tell(event)),
  );
  await host.run(async (context) => {
    context.workbook.worksheets.getItem('Sheet1').getRange('A1:A2').formulas = [[1], ['=A1+1']];
    await context.sync();
  });
  expect((await until(1))[0]).toMatchObject({ worksheetId: host.engine.activeSheet.id, address: 'A2' });
});

test('sheets added, activated and deleted are told', async () => {
  const host = createTestHost();
  const kinds: string[] = [];
  const { until } = await listen(host, (worksheets, tell) => {
    const note = (kind: string) => async (event: { worksheetId: string }) => {
      kinds.push(kind);
      tell(event);
    };
    worksheets.onAdded.add(note('added'));
    worksheets.onActivated.add(note('activated'));
    worksheets.onDeleted.add(note('deleted'));
  });
  await host.run(async (context) => {
    const sheet = context.workbook.worksheets.add('New');
    sheet.activate();
    await context.sync();
    sheet.delete();
    await context.sync();
  });
  await until(4);
  expect(kinds).toEqual(['added', 'activated', 'activated', 'deleted']);
});

test('selecting tells the address; removed handlers and disabled events tell nothing', async () => {
  const host = createTestHost();
  let handler: OfficeExtension.EventHandlerResult<Excel.WorksheetChangedEventArgs> | undefined;
  const changes = await listen(host, (worksheets, tell) => {
    handler = worksheets.onChanged.add(async (event) => tell(event));
  });
  const selections = await listen(host, (worksheets, tell) =>
    worksheets.onSelectionChanged.add(async (event) => tell(event)),
  );
  const write = (quiet: boolean) =>
    host.run(async (context) => {
      context.runtime.enableEvents = !quiet;
      context.workbook.worksheets.getItem('Sheet1').getRange('A1').values = [[1]];
      context.runtime.enableEvents = true;
      await context.sync();
    });
  await write(true);
  await write(false);
  await changes.until(1);
  const context = handler!.context as unknown as Excel.RequestContext;
  handler!.remove();
  await context.sync();
  await write(false);
  const selected = await host.run(async (inner) => {
    inner.workbook.worksheets.getItem('Sheet1').getRange('C3:D4').select();
    const range = inner.workbook.getSelectedRange().load('address');
    await inner.sync();
    return range.address;
  });
  expect(selected).toBe('Sheet1!C3:D4');
  expect((await selections.until(1)).at(-1)).toMatchObject({ address: 'C3:D4' });
  expect(changes.heard).toHaveLength(1);
});

test('an event leads back to its range', async () => {
  const host = createTestHost();
  const { until } = await listen(host, (worksheets, tell) =>
    worksheets.onChanged.add(async (event) => tell(event)),
  );
  await host.workbench.typeInto('Sheet1', 'C5', '12');
  const [event] = (await until(1)) as unknown as Excel.WorksheetChangedEventArgs[];
  const value = await host.run(async (context) => {
    const range = event!.getRange(context as never).load('values');
    await context.sync();
    return range.values[0]![0];
  });
  expect(value).toBe(12);
});
