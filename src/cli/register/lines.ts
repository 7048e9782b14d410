import { isRecord } from '../../audit/check/check';
import { resultsOf, type SheetResult } from '../../audit/results';
import { sealOf } from '../../audit/seal/seal';
import { verify } from '../../audit/seal/verify';
import { gridOf, ourSheets, type SheetView } from '../../audit/view';
import type { Book } from '../../sheets/book';
import { isoDay } from '../../sheets/days';
import type { CellName } from '../../sheets/names/all';
import { BUDGET_IDS, BUDGET_RESULT } from '../../sheets/run/budgetid';

/** A line of the register: a result of a workbook, or why there is none. What is not known is null. */
export interface RegisterLine {
  /** Path from the folder, with `/`. */
  readonly workbook: string;
  readonly sha256: string | null;
  readonly sheet: string | null;
  readonly kind: string | null;
  readonly layout: number | null;
  readonly projector: string | null;
  readonly serial: string | null;
  readonly mode: string | null;
  /** `2026-11-25`. */
  readonly date: string | null;
  /** Of the light source. */
  readonly hours: number | null;
  /** Who measured, drew the sample or issued the certificate, as the sheet says. */
  readonly person: string | null;
  /** The name of the result on its sheet; of a unit in a batch that of the same result on a run sheet. */
  readonly quantity: string | null;
  readonly label: string | null;
  /** A result that is a number. */
  readonly value: number | null;
  /** A result that is words, or the error of its cell. */
  readonly words: string | null;
  readonly u: number | null;
  readonly k: number | null;
  readonly unit: string | null;
  readonly lower_limit: number | null;
  readonly decision: string | null;
  /** `none`, `deleted`, `holds`, `not calculated`, `broken` or `unreadable`. */
  readonly seal: string | null;
  readonly sealed_by: string | null;
  readonly cell: string | null;
  /** Why the workbook or the sheet could not be read. */
  readonly error: string | null;
}

/** The columns in their order, with the types that SQL knows them by. */
export const COLUMNS: Readonly<Record<keyof RegisterLine, 'VARCHAR' | 'DOUBLE' | 'DATE'>> = {
  workbook: 'VARCHAR',
  sha256: 'VARCHAR',
  sheet: 'VARCHAR',
  kind: 'VARCHAR',
  layout: 'DOUBLE',
  projector: 'VARCHAR',
  serial: 'VARCHAR',
  mode: 'VARCHAR',
  date: 'DATE',
  hours: 'DOUBLE',
  person: 'VARCHAR',
  quantity: 'VARCHAR',
  label: 'VARCHAR',
  value: 'DOUBLE',
  words: 'VARCHAR',
  u: 'DOUBLE',
  k: 'DOUBLE',
  unit: 'VARCHAR',
  lower_limit: 'DOUBLE',
  decision: 'VARCHAR',
  seal: 'VARCHAR',
  sealed_by: 'VARCHAR',
  cell: 'VARCHAR',
  error: 'VARCHAR',
};

const EMPTY = Object.fromEntries(Object.keys(COLUMNS).map((column) => [column, null])) as unknown as Omit<
  RegisterLine,
  'workbook'
>;

export function errorLine(workbook: string, error: string, of: Partial<RegisterLine> = {}): RegisterLine {
  return { ...EMPTY, ...of, workbook, error };
}

/** A result with the results that say more of it, by the stems of their names; the line of a table is kept. */
interface Whole {
  readonly of: string;
  readonly as?: string;
  readonly u?: string;
  readonly k?: string;
  readonly limit?: string;
  readonly decision?: string;
  readonly beside?: readonly string[];
}
const WHOLES: Readonly<Record<string, readonly Whole[]>> = {
  run: BUDGET_IDS.map((id) => ({
    of: BUDGET_RESULT[id].name,
    u: `${id}Expanded`,
    k: `${id}K`,
    limit: `${id}Limit`,
    decision: `${id}Verdict`,
    beside: [`${id}U`, `${id}Dof`, `${id}Probability`],
  })),
  batch: [
    { of: 'UnitWhite', as: 'WhiteLightOutput', u: 'UnitWhiteU', k: 'WhiteK', decision: 'WhiteDecision' },
    { of: 'UnitColour', as: 'ColourLightOutput', u: 'UnitColourU', k: 'ColourK', decision: 'ColourDecision' },
    { of: 'UnitRatio', as: 'ColourToWhite' },
    { of: 'UnitUniformity', as: 'UniformityMinMax' },
  ],
  certificate: (['White', 'Colour', 'Ratio'] as const).map((id) => ({
    of: `Certified${id}`,
    u: `Certified${id}U`,
    decision: `Certified${id}Decision`,
  })),
  comparison: BUDGET_IDS.map((id) => ({ of: `${id}Values`, u: `${id}U` })),
};

/** The results of a workbook. @param workbook its path as the register has it */
export async function linesOf(book: Book, workbook: string, sha256: string): Promise<RegisterLine[]> {
  const found: RegisterLine[] = [];
  for (const view of ourSheets(book)) {
    // An overview repeats what other sheets say.
    if (isRecord(view) || view.identity?.kind === 'overview') continue;
    const head = await headOf(view, book, workbook, sha256);
    const results = resultsOf(view, book);
    if (!results.known) found.push(errorLine(workbook, results.why, head));
    else found.push(...sheetLines(view, head, results.results));
    if (view.identity?.kind === 'ageing') found.push(...measurements(view, head));
  }
  if (found.length === 0) found.push(errorLine(workbook, 'It has no sheet of ours.', { sha256 }));
  return found;
}

async function headOf(view: SheetView, book: Book, workbook: string, sha256: string): Promise<RegisterLine> {
  const { sheet, identity } = view;
  const report = await verify(book, sheet.name, { subtle: crypto.subtle });
  const record = sealOf(view);
  const text = (...names: CellName[]) => names.map((name) => textOf(one(view, name))).find(Boolean) ?? null;
  return {
    ...EMPTY,
    workbook,
    sha256,
    sheet: sheet.name,
    kind: identity?.kind ?? null,
    layout: identity?.version ?? null,
    projector: text('Projector'),
    serial: text('SerialNumber'),
    mode: text('PictureMode'),
    date: (['MeasuredOn', 'DrawnOn'] as const).map((name) => dayOf(one(view, name))).find(Boolean) ?? null,
    person: identity?.kind === 'certificate' ? text('IssuedBy', 'MeasuredBy') : text('MeasuredBy', 'DrawnBy'),
    seal: report.state,
    sealed_by: typeof record === 'object' ? record.who : null,
  };
}

function sheetLines(view: SheetView, head: RegisterLine, results: readonly SheetResult[]): RegisterLine[] {
  const byName = new Map(results.map((result) => [result.name, result]));
  const wholes = WHOLES[head.kind ?? ''] ?? [];
  const spoken = new Set(
    wholes.flatMap(({ u, k, limit, decision, beside = [] }) => [u, k, limit, decision, ...beside]),
  );
  const serials = gridOf(view, 'Serials').flat();
  const [days, hours] = [gridOf(view, 'UnitDates').flat(), gridOf(view, 'UnitHours').flat()];
  return results.flatMap((result): RegisterLine[] => {
    const { name, label, value, unit, cell } = result;
    const [, stem = name, nth] = /^(.*)\[(\d+)\]$/.exec(name) ?? [];
    if (spoken.has(stem) || value === null || value === '') return [];
    const whole = wholes.find(({ of }) => of === stem);
    const beside = (other: string | undefined) => {
      if (other === undefined) return null;
      return (byName.get(nth === undefined ? other : `${other}[${nth}]`) ?? byName.get(other))?.value ?? null;
    };
    const line = nth === undefined ? -1 : Number(nth) - 1;
    const isOfUnit = line >= 0 && serials.length > 0 && /^(?:Unit|White|Colour)/.test(stem);
    const [u, k, limit] = [whole?.u, whole?.k, whole?.limit].map((each) => numberOf(beside(each)));
    return [
      {
        ...head,
        ...(isOfUnit
          ? {
              serial: textOf(serials[line] ?? null) ?? null,
              date: dayOf(days[line] ?? null) ?? head.date,
              hours: numberOf(hours[line] ?? null),
            }
          : {}),
        quantity: whole?.as ?? stem,
        label,
        value: numberOf(value),
        words: typeof value === 'number' ? null : String(value),
        u: u!,
        k: k!,
        unit: unit === '' ? null : unit,
        lower_limit: limit!,
        decision: textOf(beside(whole?.decision)) ?? null,
        cell,
      },
    ];
  });
}

/** What stands on an ageing sheet as measured: it alone knows the hours of a run. */
function measurements(view: SheetView, head: RegisterLine): RegisterLine[] {
  const column = (name: CellName) => gridOf(view, name).flat();
  const [hours, u, days, remarks] = (
    ['MeasuredHours', 'MeasuredU', 'MeasuredOn', 'MeasurementRemark'] as const
  ).map(column);
  return column('MeasuredOutput').flatMap((output, i): RegisterLine[] => {
    if (typeof output !== 'number') return [];
    return [
      {
        ...head,
        quantity: 'MeasuredOutput',
        label: textOf(remarks![i] ?? null) ?? `Measurement ${i + 1}`,
        value: output,
        unit: 'lm',
        u: numberOf(u![i] ?? null),
        hours: numberOf(hours![i] ?? null),
        date: dayOf(days![i] ?? null) ?? null,
      },
    ];
  });
}

function one(view: SheetView, name: CellName): unknown {
  return gridOf(view, name)[0]?.[0] ?? null;
}

function textOf(value: unknown): string | undefined {
  if (typeof value === 'number') return String(value);
  return typeof value === 'string' && value !== '' ? value : undefined;
}

function numberOf(value: unknown): number | null {
  return typeof value === 'number' ? value : null;
}

function dayOf(value: unknown): string | undefined {
  return isoDay(value as never) || undefined;
}
