import { requireAddress } from '../engine/reference';
import type { Workbench } from '../host';

/**
 * Says below the sheet what Excel shows beside a cell when it is entered, and brings a cell into view that an
 * add-in selects, as Excel does; for a person's own selection the spreadsheet scrolls by itself.
 */
export function followSelection(workbench: Workbench): void {
  const { engine } = workbench;
  const line = document.querySelector<HTMLElement>('#hint')!;
  let scrolls = 0;
  workbench.onStateChanged((event) => {
    if (event.kind !== 'selected') return;
    const sheet = engine.sheetById(event.sheet);
    const [first = ''] = event.address.split(',');
    if (!sheet || !first) return;
    const hint = workbench.hint(sheet.name, first);
    line.textContent = hint ? [hint.title, hint.message].filter(Boolean).join(': ') : '';
    if (!engine.port.isOurs) return;
    const turn = ++scrolls;
    // Once the sheet brought to the front has been drawn.
    requestAnimationFrame(() => {
      if (turn === scrolls && engine.activeSheet === sheet) scrollTo(workbench, first);
    });
  });
}

function scrollTo({ engine }: Workbench, address: string): void {
  const { row, column } = requireAddress(address);
  const range = { startRow: row, endRow: row, startColumn: column, endColumn: column };
  engine.port.ours(() => engine.api.syncExecuteCommand('sheet.command.scroll-to-cell', { range }));
}
