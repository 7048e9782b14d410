import type { NamedValues, SheetReading } from '../../src/excel/host';
import { reportText } from '../../src/metrology/report';
import { figuresOf, kindWords, tell } from '../../src/sheets/overview';
import { listedSheet } from './wanted';

/** A sheet as the step lists it. */
export interface OverviewLine {
  readonly sheet: string;
  readonly kind: string;
  readonly about: string;
  readonly state: string;
  readonly tone: 'good' | 'open' | 'none';
  readonly figures: readonly FigureLine[];
}

export interface FigureLine {
  readonly label: string;
  /** As the sheet shows it; with a U as people report it: "1751 ± 77". */
  readonly text: string;
  readonly decision: string;
}

/** A reading of the names the overview looks at → what is listed. */
export function lineOf(reading: SheetReading): OverviewLine {
  const listed = listedSheet(reading);
  const { about, state, figures } = tell(listed);
  const specs = figuresOf(listed);
  return {
    sheet: reading.sheet,
    kind: kindWords(listed),
    about,
    state,
    tone: /^(complete|sealed$)/.test(state) ? 'good' : state === 'empty' ? 'none' : 'open',
    figures: figures.flatMap(({ label, value, u, decision }, i): FigureLine[] => {
      const spec = specs[i]!;
      const shown = (source: unknown, of: unknown) => {
        if (of === null || of === '') return '';
        const cell =
          source && typeof source === 'object' && 'name' in source
            ? (source as { name: string; row?: number })
            : undefined;
        const named: NamedValues | undefined = cell && reading.values[cell.name];
        return named?.texts[cell?.row ?? 0]?.[0] || String(of);
      };
      const [text, plusMinus] = [shown(spec.value, value), shown(spec.u, u)];
      const decided = decision === null ? '' : String(decision);
      if (text === '' && decided === '') return [];
      const isPair = typeof value === 'number' && typeof u === 'number' && u >= 0;
      const withU = isPair ? reportText(value, u) : plusMinus ? `${text} ± ${plusMinus}` : text;
      return [{ label, text: withU, decision: decided }];
    }),
  };
}
