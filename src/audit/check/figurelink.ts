import { LINK_LOST, LINK_WAITS } from '../../sheets/link';
import { roundedUp } from '../../sheets/linkfigures';
import type { SheetKind } from '../../sheets/plan';
import { normal } from '../formula/normal';
import type { SheetView } from '../view';

/** A figure of another sheet in an input cell. */
export interface FigureLink {
  /** The cell it is from, as the formula writes it. */
  readonly from: string;
  /** What is made of the figure, as the formula writes it; undefined where it is taken as it is. */
  readonly made?: string;
}

const LINK = new RegExp(
  `^=IF\\(ISERROR\\(ROWS\\((.+![A-Z]+\\d+|#REF!)\\)\\),"${LINK_LOST}",IF\\(COUNT\\(\\1\\)=1,(.+),"${LINK_WAITS}"\\)\\)$`,
);
const ROUNDED = normal(`=${roundedUp('P')}`, '').slice(1);
const literal = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** What links of ours make of a figure P, by the kind of the sheet they stand on. On other kinds it stays as it is. */
const MADE: Readonly<Partial<Record<SheetKind, RegExp>>> = {
  // The need, in the steps of a tender.
  offers: new RegExp(`^${literal(ROUNDED)}$`),
  // The least part of what was offered or needed.
  acceptance: new RegExp(`^(?:0\\.\\d+|1)\\*(?:P|${literal(ROUNDED)})$`),
  // The need of a room without its reserve for ageing.
  ageing: /^P\*(?:.+![A-Z]+\d+|#REF!)$/,
};

/** Where a formula in an input cell takes its figure from, if it is a link of ours, however a program spells it. */
export function figureLinkIn({ sheet, identity }: SheetView, formula: string): FigureLink | undefined {
  const [, place = '', expression = ''] = LINK.exec(normal(formula, sheet.name)) ?? [];
  if (place === '') return undefined;
  const from = between(formula, 'ROWS(', `)),"${LINK_LOST}"`);
  const made = expression.replaceAll(place, 'P');
  if (made === 'P') return { from };
  const isOurs = identity !== undefined && MADE[identity.kind]?.test(made);
  return isOurs ? { from, made: between(formula, '=1,', `,"${LINK_WAITS}"`) } : undefined;
}

function between(text: string, before: string, after: string): string {
  const start = text.indexOf(before) + before.length;
  return text.slice(start, text.indexOf(after, start)).trim();
}
