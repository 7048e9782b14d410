import type { KnownSheet, SheetReading } from '../../src/excel/host';
import { type GoneSheet, isListed } from '../../src/sheets/overview';
import { columnOf } from '../run/cell';

/** A sheet as an overview sheet names it: the texts that the pane keeps up to date. */
export interface Row {
  readonly sheet: string;
  readonly kind: string;
  readonly id: string;
  readonly isSealed: boolean;
}

/** The sheets that an overview sheet lists, those that are gone among them. */
export function rowsOn(reading: SheetReading): Row[] {
  const [names, kinds, seals] = (['SheetNames', 'Kinds', 'Seals'] as const).map((name) =>
    columnOf(reading, name),
  );
  const text = (value: unknown) =>
    typeof value === 'string' || typeof value === 'number' ? String(value) : '';
  return columnOf(reading, 'Marks').flatMap((id, i): Row[] =>
    text(id) === ''
      ? []
      : [
          {
            sheet: text(names?.[i]),
            kind: text(kinds?.[i]),
            id: text(id),
            isSealed: text(seals?.[i]) !== '',
          },
        ],
  );
}

/**
 * Which of the sheets once listed are gone. Copies of a sheet have its mark too, so of several with one mark as many
 * are gone as are missing, and those first whose names nobody bears.
 */
export function goneOf(before: readonly Row[], now: readonly KnownSheet[]): GoneSheet[] {
  const gone: Row[] = [];
  for (const id of new Set(before.map((row) => row.id))) {
    const listed = before.filter((row) => row.id === id);
    const there = now.filter((sheet) => sheet.id === id);
    const isThere = (row: Row) => there.some(({ sheet }) => sheet === row.sheet);
    const byDoubt = [...listed].sort((a, b) => Number(isThere(a)) - Number(isThere(b)));
    gone.push(...byDoubt.slice(0, Math.max(0, listed.length - there.length)));
  }
  return gone.map(({ sheet, kind, id }) => ({ sheet, kind, id }));
}

/** Whether an overview sheet names the sheets there are, in their order, and seals as they stand. */
export function isCurrent(before: readonly Row[], now: readonly KnownSheet[]): boolean {
  const gone = goneOf(before, now);
  const listed = now.filter(({ kind }) => isListed(kind));
  const wanted = [
    ...listed.map(({ sheet, id, isSealed }) => `${sheet}|${id}|${isSealed === true}`),
    ...gone.map(({ sheet, id }) => `${sheet}|${id}|false`),
  ];
  return (
    wanted.join('\n') === before.map(({ sheet, id, isSealed }) => `${sheet}|${id}|${isSealed}`).join('\n')
  );
}
