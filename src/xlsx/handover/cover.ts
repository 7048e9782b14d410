import { columnName } from '../../sheets/address';
import { heightOf } from '../../sheets/report';
import type { Looks } from './styles';
import { textCell, xmlText } from './xml';

/** A line of the cover: over the whole width, or a row of a table. */
export type CoverLine =
  | { readonly kind: 'title' | 'heading' | 'text'; readonly text: string }
  | { readonly kind: 'head' | 'row'; readonly cells: readonly string[] };

/** Columns of the cover's table, in characters. */
const WIDTHS = [30, 22, 22, 44] as const;
const LAST = columnName(WIDTHS.length - 1);
const TITLE_HEIGHT = 26;

/** A protected sheet of plain texts, to print on upright pages. */
export function coverXml(lines: readonly CoverLine[], looks: Looks): string {
  const whole = WIDTHS.reduce((sum, width) => sum + width, 0);
  const merges: string[] = [];
  const rows = lines.map((line, i) => {
    const row = i + 1;
    if ('cells' in line) {
      const style = line.kind === 'head' ? looks.heading : looks.text;
      const cells = line.cells.map((text, c) => textCell(`${columnName(c)}${row}`, text, style)).join('');
      return rowXml(row, heightOf(line.cells.map((text, c) => [text, WIDTHS[c] ?? 1])), cells);
    }
    merges.push(`A${row}:${LAST}${row}`);
    const height = line.kind === 'title' ? TITLE_HEIGHT : heightOf([[line.text, whole]]);
    return rowXml(row, height, textCell(`A${row}`, line.text, looks[line.kind]));
  });
  const columns = WIDTHS.map(
    (width, i) => `<col min="${i + 1}" max="${i + 1}" width="${width}" customWidth="1"/>`,
  );
  return [
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n',
    '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">',
    '<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>',
    `<dimension ref="A1:${LAST}${Math.max(1, lines.length)}"/>`,
    '<sheetViews><sheetView showGridLines="0" tabSelected="1" workbookViewId="0"/></sheetViews>',
    `<cols>${columns.join('')}</cols>`,
    `<sheetData>${rows.join('')}</sheetData>`,
    '<sheetProtection sheet="1" objects="1" scenarios="1"/>',
    `<mergeCells count="${merges.length}">${merges.map((ref) => `<mergeCell ref="${xmlText(ref)}"/>`).join('')}</mergeCells>`,
    '<pageMargins left="0.7" right="0.7" top="0.75" bottom="0.75" header="0.3" footer="0.3"/>',
    '<pageSetup paperSize="9" orientation="landscape" fitToHeight="0"/>',
    '</worksheet>',
  ].join('');
}

function rowXml(row: number, height: number, cells: string): string {
  return `<row r="${row}" ht="${height}" customHeight="1">${cells}</row>`;
}
