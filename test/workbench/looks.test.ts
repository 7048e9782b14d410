import { expect, test } from 'vitest';
import { createTestHost } from './client';
import { refusal } from './refusal';

test('a look the workbench does not have is refused by its name', async () => {
  const { run } = createTestHost();
  const error = await refusal(() =>
    run(async (context) => {
      context.workbook.worksheets.getItem('Sheet1').getRange('A1').format.textOrientation = 90;
      await context.sync();
    }),
  );
  expect(error.message).toContain('RangeFormat.textOrientation');
});
