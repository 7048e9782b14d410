import { columnName } from './address';
import { putBudget } from './batch/budget';
import { putHead, putSummary } from './batch/head';
import { BATCH_UNITS, type BatchSetup } from './batch/setup';
import { putSetupBlock } from './batch/setupblock';
import { FIRST_ROW, HEAD_ROW, putTable } from './batch/table';
import { BlockWriter } from './batch/writer';
import { PlanBuilder } from './builder';
import { columnsOfFirstPage } from './paper';
import type { Plan } from './plan';

/** Layout version of batch sheets. */
export const BATCH_VERSION = 5;

const CAUTION =
  'Eyes first: never look into the lens or put your head in the beam; stand aside, meter at arm’s length. Hot lamp housings, mains, cables in the dark and work at height need care. ' +
  'The maker’s manual, the site’s rules and local law come first; leave what needs a licence to those who hold one.';

/**
 * Many units of one model, one row a unit: plain formulas by row, and one function for each block of rows as the check.
 * @param id unique to this sheet, lower-case letters and digits
 * @throws if there are too few or too many lines for the units
 */
export function batchPlan(setup: BatchSetup, id: string): Plan {
  const { min, max } = BATCH_UNITS;
  if (setup.lines < Math.max(min, setup.units.length) || setup.lines > max) {
    throw new Error(
      `A batch sheet has ${min} to ${max} lines, at least one for each of its units; there are ${setup.units.length} units and ${setup.lines} lines`,
    );
  }
  const b = new PlanBuilder();
  const table = putTable(b, setup);
  const pages = {
    area: `A1:${columnName(table.lastPrinted)}${table.last}`,
    titles: `${HEAD_ROW}:${HEAD_ROW + 1}`,
    titleColumns: 'A:A',
    orientation: 'landscape',
  } as const;
  putHead(b, setup, columnsOfFirstPage(pages, table.widths) - 1);
  // One empty column, then set-up and budget: their heading stays on the screen, too.
  const w = new BlockWriter(b, table.next + 1, HEAD_ROW + 1);
  putSetupBlock(w, setup);
  putBudget(w, setup);
  putSummary(w);
  w.words('caution', CAUTION, 28);
  return b.build({
    kind: 'batch',
    version: BATCH_VERSION,
    id,
    title: ['Batch', setup.title].filter(Boolean).join(' '),
    columns: { ...table.widths, ...w.widths },
    print: pages,
    start: `A${FIRST_ROW}`,
    freeze: { rows: HEAD_ROW + 1, columns: 1 },
  });
}
