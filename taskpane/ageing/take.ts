import type { SheetReading } from '../../src/excel/host';
import type { CellValue } from '../../src/sheets/book';
import { isoDay } from '../../src/sheets/days';
import type { CellName } from '../../src/sheets/names/all';
import { retyped } from '../parse/quantity';
import type { LineTexts, UnitTexts } from './form';

/** What a run sheet has for the ageing step. */
export interface TakenRun {
  readonly line: LineTexts;
  readonly projector: string;
  readonly serial: string;
  readonly mode: string;
}

/** White light output, U and day of a run; in words if it has no result. */
export function fromRun({ sheet, values }: SheetReading): TakenRun | string {
  const first = (name: CellName): CellValue => values[name]?.values[0]?.[0] ?? null;
  const output = first('WhiteLightOutput');
  if (typeof output !== 'number')
    return `Nothing was taken: \u201c${sheet}\u201d has no white light output yet.`;
  return {
    line: {
      hours: '',
      output: digits(output),
      expanded: digits(first('WhiteExpanded')),
      date: isoDay(first('MeasuredOn')),
      remark: sheet,
    },
    projector: text(first('Projector')),
    serial: text(first('SerialNumber')),
    mode: text(first('PictureMode')),
  };
}

const LINE_NAMES = [
  'MeasuredHours',
  'MeasuredOutput',
  'MeasuredU',
  'MeasuredOn',
  'MeasurementRemark',
] as const;

/** Unit and measurements of an ageing sheet, as they stand in its cells. */
export function fromAgeingSheet({ values }: SheetReading): {
  readonly texts: UnitTexts;
  readonly lines: readonly LineTexts[];
} {
  const column = (name: CellName) => values[name]?.values.map((row) => row[0] ?? null) ?? [];
  const first = (name: CellName) => column(name)[0] ?? null;
  const level = first('Level');
  const [hours, output, expanded, date, remark] = LINE_NAMES.map(column) as [
    CellValue[],
    CellValue[],
    CellValue[],
    CellValue[],
    CellValue[],
  ];
  const lines = hours.flatMap((at, i): LineTexts[] => {
    if (typeof at !== 'number' && typeof output[i] !== 'number') return [];
    return [
      {
        hours: digits(at),
        output: digits(output[i] ?? null),
        expanded: digits(expanded[i] ?? null),
        date: isoDay(date[i] ?? null),
        remark: text(remark[i] ?? null),
      },
    ];
  });
  return {
    texts: {
      projector: text(first('Projector')),
      serial: text(first('SerialNumber')),
      mode: text(first('PictureMode')),
      needed: digits(first('NeededOutput')),
      stated: digits(first('StatedOutput')),
      hoursPerYear: digits(first('HoursPerYear')),
      level: typeof level === 'number' ? digits(level * 100) : '',
    },
    lines,
  };
}

function text(value: CellValue): string {
  return typeof value === 'string' || typeof value === 'number' ? String(value) : '';
}

/** A number as a person would type it, so that nobody is asked what its point means. Ten digits are more than any meter has. */
function digits(value: CellValue): string {
  return typeof value === 'number' ? retyped(Number(value.toPrecision(10))) : '';
}
