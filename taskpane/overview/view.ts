import type { KnownSheet } from '../../src/excel/host';
import { reportText } from '../../src/metrology/report';
import { whole } from '../../src/procurement/wording/format';
import type { CellValue } from '../../src/sheets/book';
import { kindWords, tell } from '../../src/sheets/overview';
import type { SheetKind } from '../../src/sheets/plan';
import { type Outcome, outcomeOf } from './outcome';
import { listedSheet } from './wanted';

/** A sheet as the step lists it. */
export interface OverviewLine {
  readonly sheet: string;
  readonly of: SheetKind;
  /** The kind in words. */
  readonly kind: string;
  readonly about: string;
  readonly state: string;
  /** "24 of 38" where some is there and not all. */
  readonly progress: string;
  readonly tone: 'good' | 'open' | 'none';
  readonly outcome: Outcome | undefined;
  /** Its seal was compared, and does not hold or is gone. */
  readonly isBroken: boolean;
  readonly figures: readonly FigureLine[];
  /** The chosen offer of an offers sheet. */
  readonly chosen: string;
}

interface FigureLine {
  readonly label: string;
  /** With a U as people report it: "1751 ± 77". */
  readonly text: string;
  readonly decision: string;
}

/** What of a sheet is read to list it. */
export type Reading = KnownSheet & Parameters<typeof listedSheet>[0];

/**
 * A reading of the names the overview looks at → what is listed.
 * @param isBroken whether its seal is known not to hold
 */
export function lineOf(reading: Reading, isBroken = false): OverviewLine {
  const listed = listedSheet(reading);
  const { about, state, figures } = tell(listed);
  const decisions = figures.flatMap(({ decision }) => (decision === null ? [] : [String(decision)]));
  return {
    sheet: reading.sheet,
    of: reading.kind,
    kind: kindWords(listed),
    about,
    state,
    tone: /^(complete|sealed$)/.test(state) ? 'good' : state === 'empty' ? 'none' : 'open',
    chosen: String(reading.values.ChosenOffer?.values?.[0]?.[0] ?? ''),
    progress: /^in progress, (.*)$/.exec(state)?.[1] ?? '',
    outcome: outcomeOf(decisions),
    isBroken,
    figures: figures.flatMap(({ label, value, u, decision }): FigureLine[] => {
      const [text, plusMinus] = [shown(value), shown(u)];
      const decided = decision === null ? '' : String(decision);
      if (text === '' && decided === '') return [];
      const isPair = typeof value === 'number' && typeof u === 'number' && u >= 0;
      const withU = isPair ? reportText(value, u) : plusMinus ? `${text} ± ${plusMinus}` : text;
      return [{ label, text: withU, decision: decided }];
    }),
  };
}

/** Written here and not as the cell shows it, which depends on the country and on the width of the column. */
function shown(value: CellValue): string {
  if (typeof value === 'number') return whole(value);
  return value === null ? '' : String(value);
}
