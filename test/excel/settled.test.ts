import { expect, it } from 'vitest';
import { standBetween } from '../workbench/between';
import type { TestHost } from '../workbench/client';
import { createPaneHost } from './host';

/* `Application.calculationState`: "Done", "Calculating", "Pending" (reference of Excel.CalculationState). */

/** The program says that it calculates for so many answers. */
function calculating(test: TestHost, answers: number): { asked: number } {
  const seen = { asked: 0 };
  standBetween(test, {
    after: (_, result) => {
      const text = JSON.stringify(result);
      if (!text.includes('"CalculationState":"Done"')) return result;
      seen.asked++;
      return seen.asked > answers ? result : JSON.parse(text.replace('"Done"', '"Calculating"'));
    },
  });
  return seen;
}

it('waits until the program has calculated everything', async () => {
  const { host, test } = await createPaneHost();
  const seen = calculating(test, 3);
  await host.settled(60_000);
  expect(seen.asked).toBe(4);
});

it('gives up at its limit, in words, and does nothing', async () => {
  const { host, test } = await createPaneHost();
  calculating(test, Number.POSITIVE_INFINITY);
  await expect(host.settled(0)).rejects.toMatchObject({
    trouble: 'busy',
    message: 'The spreadsheet program was still calculating after 0 seconds. Nothing was done.',
    detail: 'calculationState Calculating',
  });
});
