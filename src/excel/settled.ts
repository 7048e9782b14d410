import { HostError } from './host';

/** How often the program is asked, in ms. */
const PAUSE = 250;

/**
 * Waits until the program says that it has calculated everything (`Application.calculationState`, ExcelApi 1.9).
 * @param limit in ms
 * @throws HostError `busy` if it has not by then
 */
export async function settled(context: Excel.RequestContext, limit: number): Promise<void> {
  const { application } = context.workbook;
  const end = Date.now() + limit;
  for (;;) {
    application.load('calculationState');
    await context.sync();
    if (application.calculationState === 'Done') return;
    if (Date.now() >= end) {
      throw new HostError(
        'busy',
        `The spreadsheet program was still calculating after ${Math.round(limit / 1000)} seconds. Nothing was done.`,
        'Wait until it has finished, or press F9 where calculation is set to manual; then try again.',
        `calculationState ${application.calculationState}`,
      );
    }
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
  }
}
