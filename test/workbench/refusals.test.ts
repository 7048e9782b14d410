import { expect, test } from 'vitest';
import { createTestHost, type TestHost } from './client';
import { refusal } from './refusal';

type Run = ReturnType<typeof createTestHost>['run'];

/** "Sheet1", protected; B2 may be changed, the rest not. */
async function protectedSheet(run: Run): Promise<void> {
  await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('A1:B2').values = [
      [1, 2],
      [3, 4],
    ];
    sheet.getRange('B2').format.protection.locked = false;
    sheet.protection.protect();
    await context.sync();
  });
}
const onSheet = (run: Run, work: (sheet: Excel.Worksheet) => void) =>
  run(async (context) => {
    work(context.workbook.worksheets.getItem('Sheet1'));
    await context.sync();
  });

// AccessDenied: "You cannot perform the requested operation." ("Error handling …", Office Add-ins documentation).
test('a protected sheet takes values in unlocked cells only, and no changes of its look', async () => {
  const { run } = createTestHost();
  await protectedSheet(run);
  await onSheet(run, (sheet) => {
    sheet.getRange('B2').values = [[5]];
  });
  const attempts: ((sheet: Excel.Worksheet) => void)[] = [
    (sheet) => {
      sheet.getRange('A1').values = [[9]];
    },
    (sheet) => {
      sheet.getRange('A1:B2').values = 1 as never;
    },
    (sheet) => {
      sheet.getRange('B2').format.fill.color = '#ff0000';
    },
    (sheet) => {
      sheet.getRange('B2').format.columnWidth = 10;
    },
    (sheet) => sheet.getRange('A1').clear(),
    (sheet) => sheet.getRange('B2:C2').merge(),
    (sheet) => {
      sheet.getRange('B2').dataValidation.rule = { list: { source: 'a,b', inCellDropDown: true } };
    },
  ];
  for (const attempt of attempts)
    expect(await refusal(() => onSheet(run, attempt))).toMatchObject({ code: 'AccessDenied' });
  const values = await run(async (context) => {
    const range = context.workbook.worksheets.getItem('Sheet1').getRange('A1:B2').load('values');
    await context.sync();
    return range.values;
  });
  expect(values).toEqual([
    [1, 2],
    [3, 5],
  ]);
});

test('protecting twice, and unprotecting what is not protected, are refused', async () => {
  const { run } = createTestHost();
  await protectedSheet(run);
  expect(await refusal(() => onSheet(run, (sheet) => sheet.protection.protect()))).toMatchObject({
    code: 'AccessDenied',
  });
  const state = await run(async (context) => {
    const { protection } = context.workbook.worksheets.getItem('Sheet1');
    protection.load('protected,options');
    await context.sync();
    const before = [protection.protected, protection.options.allowFormatCells];
    protection.unprotect();
    protection.load('protected');
    await context.sync();
    return [...before, protection.protected];
  });
  expect(state).toEqual([true, false, false]);
  expect(await refusal(() => onSheet(run, (sheet) => sheet.protection.unprotect()))).toMatchObject({
    code: 'AccessDenied',
  });
});

test('a person is refused in locked cells, and told which', async () => {
  const { run, workbench } = createTestHost();
  await protectedSheet(run);
  expect(await workbench.typeInto('Sheet1', 'A1', '9')).toEqual({
    accepted: false,
    message: expect.stringContaining('A1 is locked'),
  });
  expect(await workbench.typeInto('Sheet1', 'B2', '9')).toEqual({ accepted: true });
});

test('a validation stops what a person types, not what the API writes', async () => {
  // "Add data validation to Excel ranges", Office Add-ins documentation: values an add-in writes are not checked.
  const { run, workbench, engine } = createTestHost();
  await onSheet(run, (sheet) => {
    const reading = sheet.getRange('B2:B4').dataValidation;
    reading.rule = { decimal: { formula1: 0, formula2: 200_000, operator: 'Between' } };
    reading.errorAlert = { showAlert: true, style: 'Stop', title: 'Illuminance', message: '0 to 200 000 lx' };
    sheet.getRange('C2').dataValidation.rule = { list: { source: 'lx,fc', inCellDropDown: true } };
    sheet.getRange('D2').dataValidation.rule = { custom: { formula: '=D2>B2' } };
    const soft = sheet.getRange('E2').dataValidation;
    soft.rule = { textLength: { formula1: 3, operator: 'LessThanOrEqualTo' } };
    soft.errorAlert = { showAlert: true, style: 'Warning', title: '', message: 'long' };
  });
  const type = (at: string, text: string) => workbench.typeInto('Sheet1', at, text);
  expect(await type('B2', '250')).toEqual({ accepted: true });
  expect(await type('B3', '-1')).toEqual({ accepted: false, message: 'Illuminance: 0 to 200 000 lx' });
  expect(await type('B3', 'over range')).toMatchObject({ accepted: false });
  expect(await type('B3', '')).toEqual({ accepted: true });
  expect(await type('C2', 'fc')).toEqual({ accepted: true });
  expect(await type('C2', 'cd')).toMatchObject({ accepted: false });
  expect(await type('D2', '300')).toEqual({ accepted: true });
  expect(await type('D2', '200')).toMatchObject({ accepted: false });
  expect(engine.activeSheet.value(1, 3)).toBe(300);
  expect(await type('E2', 'four')).toEqual({ accepted: true, message: 'long' });
  const valid = await run(async (context) => {
    const sheet = context.workbook.worksheets.getItem('Sheet1');
    sheet.getRange('B4').values = [[-5]];
    const whole = sheet.getRange('B2:B4').dataValidation.load('valid,type,rule,errorAlert');
    const one = sheet.getRange('B4').dataValidation.load('valid');
    await context.sync();
    return [whole.valid, whole.type, whole.rule.decimal?.formula2, whole.errorAlert.title, one.valid];
  });
  expect(valid).toEqual([null, 'Decimal', '=200000', 'Illuminance', false]);
});

test('texts longer than Excel takes are refused', async () => {
  // Prompt 255, titles 32 ("Add data validation to Excel ranges"); error text 224 ([MS-OI29500] 2.1.613).
  const { run } = createTestHost();
  const prompt = (title: string, message: string) =>
    onSheet(run, (sheet) => {
      sheet.getRange('A1').dataValidation.prompt = { showPrompt: true, title, message };
    });
  await prompt('t'.repeat(32), 'm'.repeat(255));
  expect(await refusal(() => prompt('t'.repeat(33), ''))).toMatchObject({ code: 'InvalidArgument' });
  expect(await refusal(() => prompt('', 'm'.repeat(256)))).toMatchObject({ code: 'InvalidArgument' });
  const alert = (message: string) =>
    onSheet(run, (sheet) => {
      sheet.getRange('A1').dataValidation.errorAlert = { showAlert: true, style: 'Stop', title: '', message };
    });
  await alert('m'.repeat(224));
  expect(await refusal(() => alert('m'.repeat(225)))).toMatchObject({ code: 'InvalidArgument' });
});

/** Puts a number into A1 of the first sheet. */
const writer =
  (run: TestHost['run']) =>
  (value: number, options?: Excel.RunOptions): Promise<void> =>
    run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('A1').values = [[value]];
      await context.sync();
    }, options);

// Reference of Excel.RunOptions.delayForCellEdit.
test('while a person types, a batch fails, or waits when it was asked to', async () => {
  const { run, engine } = createTestHost();
  const write = writer(run);
  engine.isEditing = true;
  expect(await refusal(() => write(1))).toMatchObject({ code: 'InvalidOperationInCellEditMode' });
  let isDone = false;
  const waiting = write(2, { delayForCellEdit: true }).then(() => {
    isDone = true;
  });
  await new Promise((resolve) => setImmediate(resolve));
  // Another that may not wait does not stand behind the one that waits.
  expect(await refusal(() => write(1))).toMatchObject({ code: 'InvalidOperationInCellEditMode' });
  expect(isDone).toBe(false);
  expect(engine.activeSheet.value(0, 0)).toBeNull();
  engine.isEditing = false;
  await waiting;
  expect(engine.activeSheet.value(0, 0)).toBe(2);
});

test('batches that wait for a cell apply in the order they came', async () => {
  const { run, engine } = createTestHost();
  const order: number[] = [];
  const write = (value: number) =>
    run(
      async (context) => {
        context.workbook.worksheets.getItem('Sheet1').getRange('A1').values = [[value]];
        await context.sync();
        order.push(value);
      },
      { delayForCellEdit: true },
    );
  engine.isEditing = true;
  const waiting = [1, 2, 3].map(write);
  await new Promise((resolve) => setImmediate(resolve));
  engine.isEditing = false;
  // A person begins again before the first of them had its turn: they go on waiting.
  engine.isEditing = true;
  await new Promise((resolve) => setImmediate(resolve));
  expect(order).toEqual([]);
  engine.isEditing = false;
  await Promise.all(waiting);
  expect(order).toEqual([1, 2, 3]);
  expect(engine.activeSheet.value(0, 0)).toBe(3);
});

test('batches apply in the order they came, whether they may wait for a cell or not', async () => {
  const { run, engine } = createTestHost();
  const write = writer(run);
  await Promise.all([write(1, { delayForCellEdit: true }), write(2)]);
  expect(engine.activeSheet.value(0, 0)).toBe(2);
});

test('a fault of the workbench is answered, and the batches after it are not held up by it', async () => {
  const { run, engine } = createTestHost();
  const write = (value: number) =>
    run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('A1').values = [[value]];
      await context.sync();
    });
  const holdLooks = engine.holdLooks.bind(engine);
  engine.holdLooks = () => {
    engine.holdLooks = holdLooks;
    return () => {
      throw new Error('a fault');
    };
  };
  expect(await refusal(() => write(1))).toMatchObject({ code: 'GeneralException' });
  await write(2);
  expect(engine.activeSheet.value(0, 0)).toBe(2);
});
