import type { Plan } from './plan';
import { type Moment, reportPlan } from './report';

const TRACE_VERSION = 1;

/** The chain of one cell, ready to be written down. */
export interface TraceSetup {
  readonly moment: Moment;
  readonly sheet: string;
  readonly cell: string;
  /** `White light output = 1056.2 lm ± 61 lm (k = 2.00, 95.45 %)`. */
  readonly traced: string;
  readonly lines: readonly TraceLine[];
}
/** One step of the chain. */
export interface TraceLine {
  /** 0 for the traced cell, 1 for what it rests on, and so on. */
  readonly level: number;
  readonly what: string;
  readonly value: string | number;
  readonly unit: string;
  readonly cell: string;
  readonly words: string;
  readonly numbers: string;
  readonly formula: string;
  readonly source: string;
  readonly findings: string;
}

const COLUMNS = [
  { label: 'Level', width: 13 },
  { label: 'Quantity', width: 34 },
  { label: 'Value', width: 14 },
  { label: 'Unit', width: 8 },
  { label: 'Cell', width: 10 },
  { label: 'In words', width: 34 },
  { label: 'With the numbers put in', width: 40 },
  { label: 'Formula', width: 34 },
  { label: 'Source', width: 30 },
  { label: 'Finding', width: 24 },
] as const;

/** How far a step is moved in for each level, in no-break spaces, and how far at most. */
const INDENT = 2;
const INDENT_MAX = 16;

/** The chain of a result down to its readings, as a sheet to print, to hand over and to keep. */
export function tracePlan({ moment, sheet, cell, traced, lines }: TraceSetup, id: string): Plan {
  return reportPlan(
    {
      kind: 'trace',
      version: TRACE_VERSION,
      title: `Trace ${cell} ${sheet}`,
      heading: 'Where a number comes from',
      columns: COLUMNS,
      moment,
      things: 'steps',
      facts: [
        ['Cell', `${cell} on the sheet “${sheet}”`],
        ['Traced', traced],
      ],
      rows: lines.map(({ level, what, value, unit, cell: at, words, numbers, formula, source, findings }) => [
        level,
        `${'\u00a0'.repeat(Math.min(INDENT_MAX, INDENT * level))}${what}`,
        value,
        unit,
        at,
        words,
        numbers,
        formula,
        source,
        findings,
      ]),
    },
    id,
  );
}
