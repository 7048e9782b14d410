import type { NamedValues, SheetReading } from '../../src/excel/host';
import { rectOf } from '../../src/sheets/address';
import type { CellValue } from '../../src/sheets/book';
import type { CellName } from '../../src/sheets/names/all';
import { type RunResult, runResults } from '../../src/sheets/run/results';
import { uncertaintyResults } from '../../src/sheets/run/verdict';
import { inFormat } from './informat';

/** A result as the pane shows it. */
export interface ResultView {
  readonly name: CellName;
  readonly label: string;
  readonly unit: string;
  /** With as many digits as the sheet's cell shows; empty while it waits for readings. */
  readonly text: string;
  readonly value?: number;
  /** Why there is no result, where the sheet says why; or that it is the plain formula's. */
  readonly message?: string;
}

/** Whether the custom functions and the plain formulas beside them came to the same. */
export interface Agreement {
  readonly agreeing: number;
  readonly differing: readonly string[];
  /** Results that only the plain formula gives: the custom functions do not answer. */
  readonly plainOnly: number;
}

/** Every result that a run sheet can have: set-ups differ only in which of them they have. */
const ALL: readonly RunResult[] = runResults({
  colour: 'full fields',
  black: true,
  checkerboard: true,
  corners: true,
  ambient: 'once',
  repeats: 1,
});

/** Uncertainties and decisions, which stand in a block of their own. */
const SURE: readonly RunResult[] = uncertaintyResults({
  colour: 'full fields',
  black: true,
  checkerboard: true,
});

export function resultsOf({ values }: SheetReading): ResultView[] {
  return ALL.flatMap(({ name, label, unit, format }) => {
    const [own, plain] = [first(values[name]), first(values[`${name}Plain`])];
    if (own === undefined) return [];
    const isMute = isError(own, '#NAME?') || isError(own, '#BUSY!');
    // The plain formula beside it keeps the figure alive while the custom function does not answer.
    const shown =
      isMute && typeof plain === 'number'
        ? { ...shownAs(plain, format), message: 'by plain formula' }
        : shownAs(own, format);
    return [{ name, label, unit, ...shown }];
  });
}

function first(named: NamedValues | undefined): CellValue | undefined {
  return named && (named.values[0]?.[0] ?? null);
}

function isError(value: CellValue, kind: string): boolean {
  return typeof value === 'object' && value !== null && value.error === kind;
}

/** A result cell holds a number, "at least 500", an error with a message, or says that it waits. */
function shownAs(value: CellValue, format: string): Pick<ResultView, 'text' | 'value' | 'message'> {
  if (typeof value === 'number') return { text: inFormat(value, format), value };
  if (typeof value === 'object' && value !== null) {
    return { text: '', message: value.message ? `${value.error} ${value.message}` : value.error };
  }
  if (typeof value === 'string' && value.startsWith('at least')) return { text: value };
  return { text: '', ...(value === 'see remarks' ? { message: 'see the remarks' } : {}) };
}

/** True if an error of this kind stands in a result. */
export function hasError({ values }: SheetReading, kind: string): boolean {
  return [...ALL, ...SURE].some(({ name }) => isError(first(values[name]) ?? null, kind));
}

/** The agreement cells stand in the rows of their results: results first, uncertainties and decisions below. */
export function agreementOf(reading: SheetReading): Agreement {
  const lists = [agreementIn(reading, 'Agreement', ALL), agreementIn(reading, 'DecisionAgreement', SURE)];
  return {
    agreeing: lists.reduce((sum, { agreeing }) => sum + agreeing, 0),
    differing: lists.flatMap(({ differing }) => differing),
    plainOnly: lists.reduce((sum, { plainOnly }) => sum + plainOnly, 0),
  };
}

function agreementIn(reading: SheetReading, name: CellName, results: readonly RunResult[]): Agreement {
  const named = reading.values[name];
  const texts = named?.values.map((row) => String(row[0] ?? '')) ?? [];
  const first = named ? rectOf(named.address).row : 0;
  const labelAt = (row: number) =>
    results.find(
      (result) => reading.values[result.name] && rectOf(reading.values[result.name]!.address).row === row,
    )?.label;
  return {
    agreeing: texts.filter((text) => text === 'agree').length,
    differing: texts.flatMap((text, i) =>
      text === 'differ' ? [labelAt(first + i) ?? `row ${first + i + 1}`] : [],
    ),
    plainOnly: texts.filter((text) => text === 'plain formula only').length,
  };
}
