import type { Align, Style } from './book';
import type { PlanCell, Role } from './plan';

/*
 * The look of a sheet. Roles differ in frame, weight and slant as well as in tint, so that they can be told
 * apart in a black-and-white print. Contrast of text on tint is at least 7:1 throughout.
 */
const INK = '#1F2933';
const QUIET = '#4A5560';
const FRAME = '#7B8794';

/** What a cell looks like whose words are bad news: a failure, two figures that differ. */
export const RED = { fill: '#FBE3E1', color: '#7A1712' } as const;

/**
 * The font of every cell we write. Widths and heights are planned for it, and the font of a new workbook differs from
 * version to version and on a Mac in size. Every Excel has it; LibreOffice takes Carlito for it, whose letters are as
 * wide.
 */
export const FONT = { name: 'Calibri', size: 11 } as const;

/** Below every printed page, in the codes of ECMA-376-1, 18.3.1.39: sheet, file, date, page of pages. */
export const FOOTER = { left: '&A', center: '&F', right: '&D, page &P of &N' } as const;

const STYLES: Readonly<Record<Role, Style>> = {
  title: { size: 16, bold: true, color: INK, vertical: 'center' },
  heading: {
    bold: true,
    color: INK,
    fill: '#E4E7EB',
    border: { color: FRAME, weight: 'thin', sides: 'bottom' },
  },
  head: {
    bold: true,
    color: INK,
    fill: '#E4E7EB',
    border: { color: FRAME, weight: 'thin', sides: 'box' },
    vertical: 'bottom',
    wrap: true,
  },
  label: { color: INK, vertical: 'center' },
  unit: { color: QUIET, vertical: 'center' },
  input: {
    color: INK,
    fill: '#FFF8E6',
    border: { color: FRAME, weight: 'thin', sides: 'box' },
    align: 'left',
    vertical: 'center',
    locked: false,
  },
  choice: {
    color: INK,
    fill: '#F3EFFA',
    border: { color: FRAME, weight: 'thin', sides: 'box' },
    align: 'left',
    vertical: 'center',
    locked: false,
  },
  reading: {
    color: INK,
    border: { color: INK, weight: 'thin', sides: 'box' },
    align: 'center',
    vertical: 'center',
    size: 12,
    locked: false,
  },
  factor: {
    color: QUIET,
    fill: '#FFF8E6',
    border: { color: FRAME, weight: 'thin', sides: 'box' },
    align: 'center',
    vertical: 'center',
    locked: false,
  },
  derived: { color: QUIET, align: 'center', vertical: 'center' },
  result: {
    bold: true,
    color: INK,
    size: 12,
    align: 'right',
    vertical: 'center',
    border: { color: INK, weight: 'medium', sides: 'bottom' },
  },
  twin: { bold: true, color: INK, align: 'right', vertical: 'center' },
  answer: { bold: true, color: INK, size: 14, align: 'left', vertical: 'center' },
  figure: { color: INK, align: 'right', vertical: 'center' },
  called: { color: QUIET, italic: true, align: 'right', vertical: 'center', size: 9 },
  check: { color: QUIET, align: 'left', vertical: 'center', wrap: true, size: 9 },
  note: { color: QUIET, italic: true, wrap: true, vertical: 'top' },
  words: {
    color: INK,
    fill: '#FFF8E6',
    border: { color: FRAME, weight: 'thin', sides: 'box' },
    align: 'left',
    vertical: 'top',
    wrap: true,
    locked: false,
  },
  caution: {
    color: INK,
    wrap: true,
    vertical: 'top',
    border: { color: '#8A4B00', weight: 'medium', sides: 'box' },
  },
  stamp: {
    color: INK,
    align: 'left',
    vertical: 'center',
    border: { color: FRAME, weight: 'thin', sides: 'bottom' },
  },
  line: {
    color: INK,
    align: 'left',
    vertical: 'top',
    wrap: true,
    border: { color: '#D5DAE0', weight: 'thin', sides: 'bottom' },
  },
};

/** The style every writer applies to a cell of a plan. */
export function styleOf({
  role,
  format,
  align,
  isOpen,
}: Pick<PlanCell, 'role' | 'format' | 'align' | 'isOpen'>): Style {
  return {
    ...STYLES[role],
    ...(format === undefined ? {} : { format }),
    ...(align === undefined ? {} : { align }),
    ...(isOpen ? { locked: false } : {}),
  };
}

/** What is known of a table's column before there are cells in it. */
interface ColumnLook {
  readonly role: Role;
  readonly format?: string;
  readonly rule?: { readonly type: string };
}

/**
 * How the cells of a table's column stand, and the head above them: numbers at the right, so that their digits
 * stand below one another; readings where they are on the grids of a run.
 */
export function standOf({ role, format, rule }: ColumnLook): Align | undefined {
  if (role === 'reading' || role === 'factor') return STYLES[role].align;
  const isNumber = rule?.type === 'number' || (format !== undefined && /[0#]/.test(format));
  return isNumber ? 'right' : STYLES[role].align;
}
