import { cellName } from '../sheets/address';
import { MARGINS } from '../sheets/paper';
import type { Plan } from '../sheets/plan';
import { FOOTER } from '../sheets/style';
import { writeCharts } from './charts';
import type { Lacking } from './host';
import { protectionOf } from './protect';
import { toHostError } from './trouble';

/** What of a plan a host can take. */
export interface Abilities {
  readonly notes: boolean;
  readonly charts: boolean;
}

interface Extra {
  readonly part: Lacking['part'];
  /** Takes away what a failed try may have left. */
  readonly clear?: () => Promise<void>;
  readonly write: () => void;
}

/**
 * What a sheet can do without: that it comes to the front, its page set-up, charts, notes, its protection. Each depends on more
 * than the sheet (printers, the window in front, the version of the program), so a failure costs only itself. One
 * round trip where all goes well; each by itself where it does not. Calculation is not held: charts are made of
 * calculated cells. The protection comes last, since a protected sheet takes no charts.
 *
 * @returns what is missing, with the program's own words for a report
 */
export async function writeExtras(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  plan: Plan,
  has: Abilities,
  show: () => void = () => {},
): Promise<readonly Lacking[]> {
  const extras = extrasOf(context, sheet, plan, has, show);
  const protect = () => sheet.protection.protect(protectionOf(plan.filter));
  try {
    for (const { write } of extras) write();
    protect();
    await context.sync();
    return [];
  } catch {
    // Which of them it was is found one by one.
  }
  const lacking: Lacking[] = [];
  for (const { part, clear, write } of extras) {
    try {
      await clear?.();
      write();
      await context.sync();
    } catch (reason) {
      lacking.push({ part, detail: toHostError(reason).detail });
      await clear?.().catch(() => undefined);
    }
  }
  try {
    // The answer to the first try may have been lost.
    sheet.protection.load('protected');
    await context.sync();
    if (!sheet.protection.protected) protect();
    await context.sync();
  } catch (reason) {
    lacking.push({ part: 'protection', detail: toHostError(reason).detail });
  }
  return lacking;
}

function extrasOf(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  plan: Plan,
  has: Abilities,
  show: () => void,
): Extra[] {
  const { notes, charts = [] } = plan;
  const cleared = (items: () => { load(what: string): unknown; items: { delete(): void }[] }) => async () => {
    const found = items();
    found.load('items');
    await context.sync();
    for (const item of found.items) item.delete();
    await context.sync();
  };
  return [
    {
      part: 'view',
      write: () => {
        show();
        freeze(sheet, plan);
      },
    },
    { part: 'page', write: () => writePage(sheet, plan) },
    ...(has.charts && charts.length > 0
      ? [
          {
            part: 'charts' as const,
            clear: cleared(() => sheet.charts),
            write: () => writeCharts(sheet, charts),
          },
        ]
      : []),
    ...(has.notes && notes.length > 0
      ? [
          {
            part: 'notes' as const,
            clear: cleared(() => sheet.notes),
            write: () => {
              for (const { at, text } of notes) sheet.notes.add(at, text);
            },
          },
        ]
      : []),
  ];
}

function writePage(sheet: Excel.Worksheet, plan: Plan): void {
  const {
    area,
    titles,
    titleColumns,
    orientation,
    wide,
    tall,
    scale,
    breaks = [],
    columnBreaks = [],
  } = plan.print;
  sheet.pageLayout.setPrintArea(area);
  if (titles) sheet.pageLayout.setPrintTitleRows(titles);
  if (titleColumns) sheet.pageLayout.setPrintTitleColumns(titleColumns);
  sheet.pageLayout.orientation = orientation === 'portrait' ? 'Portrait' : 'Landscape';
  sheet.pageLayout.zoom =
    scale === undefined
      ? {
          ...(wide > 0 ? { horizontalFitToPages: wide } : {}),
          ...(tall > 0 ? { verticalFitToPages: tall } : {}),
        }
      : { scale };
  sheet.pageLayout.setPrintMargins('Inches', MARGINS);
  const foot = sheet.pageLayout.headersFooters.defaultForAllPages;
  foot.leftFooter = FOOTER.left;
  foot.centerFooter = FOOTER.center;
  foot.rightFooter = FOOTER.right;
  for (const row of breaks) sheet.horizontalPageBreaks.add(`A${row}`);
  for (const letter of columnBreaks) sheet.verticalPageBreaks.add(`${letter}1`);
}

function freeze(sheet: Excel.Worksheet, plan: Plan): void {
  const { rows = 0, columns = 0 } = plan.freeze ?? {};
  if (rows > 0 && columns > 0)
    sheet.freezePanes.freezeAt(sheet.getRange(`A1:${cellName(rows - 1, columns - 1)}`));
  else if (rows > 0) sheet.freezePanes.freezeRows(rows);
}
