import { cellCount, cellsOf, contains, isAddress, rectOf } from '../../sheets/address';
import type { Book, BookSheet, FileRemark, Style } from '../../sheets/book';
import type { Plan } from '../../sheets/plan';
import { FONT } from '../../sheets/style';
import { shadows, unseenOf } from '../seal/seen';
import { AREA_MAX, type SheetView } from '../view';
import type { Finding } from './finding';

/** Letters that differ less from what is behind them, or are smaller, are not read (WCAG 2.2 asks 4.5 of text). */
const CONTRAST = 1.5;
const SMALLEST = 6;

/** Whatever a spreadsheet program and a file both tell of what is not seen, or not as it seems. */
export function checkSeen(view: SheetView, { cells }: Plan, book?: Book): Finding[] {
  const { sheet } = view;
  const unseen = unseenOf(view);
  const tell = (message: string, expected: string, found: string, at?: string): Finding => ({
    sheet: sheet.name,
    ...(at === undefined ? {} : { at }),
    kind: 'seen',
    severity: 'warning',
    message,
    expected,
    found,
  });
  const rows = unseen.rows.map((row) =>
    tell(`Row ${row} is hidden, with what stands in it.`, 'shown', 'hidden', `A${row}`),
  );
  const columns = unseen.columns.map((column) =>
    tell(`Column ${column} is hidden, with what stands in it.`, 'shown', 'hidden', `${column}1`),
  );
  const shadowing = book ? shadows(sheet, book) : [];
  return [
    ...(sheet.visibility === 'visible'
      ? []
      : [{ ...tell('The sheet is hidden.', 'shown', 'hidden'), severity: 'note' as const }]),
    ...rows,
    ...columns,
    ...Object.keys(cells).flatMap((at) => {
      const { value, style } = sheet.cells[at] ?? {};
      const look = value === null || value === undefined || value === '' ? undefined : unreadable(style);
      return look === undefined
        ? []
        : [tell(`${at} holds something and cannot be read.`, 'readable', look, at)];
    }),
    ...shadowing.map(({ name, refersTo }) => ({
      ...tell(
        `The workbook has a name ${name}, which formulas of the sheet mention: they may compute something else.`,
        'no such name',
        refersTo,
      ),
      severity: 'error' as const,
    })),
  ];
}

function unreadable({
  color = '#000000',
  fill = '#FFFFFF',
  size = FONT.size,
}: Style = {}): string | undefined {
  if (size < SMALLEST) return `${size} pt`;
  const [a, b] = [lightness(color), lightness(fill)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05) < CONTRAST ? `${color} on ${fill}` : undefined;
}

/** Relative luminance of `#RRGGBB` (WCAG 2.2, "relative luminance"). */
function lightness(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/**
 * What only a file tells: merged cells, notes and conditional formats against the layout, and what a Book does not hold.
 *
 * @param isOlder of an earlier layout nobody knows what was merged, noted or coloured
 */
export function checkDrawn(
  { sheet }: SheetView,
  plan: Plan,
  file: readonly FileRemark[],
  isOlder: boolean,
): Finding[] {
  const planned = new Set((plan.charts ?? []).map(({ over }) => firstOf(over)));
  const isOther = ({ at }: FileRemark) => !planned.has(firstOf(at)) && covers(sheet, at);
  const own = file.filter(
    (remark) => remark.sheet === sheet.name && (remark.isChart !== true || isOther(remark)),
  );
  return [
    ...(isOlder ? [] : [...merged(sheet, plan), ...noted(sheet, plan, own), ...coloured(sheet, plan)]),
    ...own.filter((remark) => !isOfWhatWasTyped(sheet, remark)).map((remark) => weighed(sheet, remark)),
  ];
}

const firstOf = (area = '') => area.split(':')[0]!;

function covers({ cells }: BookSheet, area: string | undefined): boolean {
  if (area === undefined || !isAddress(area)) return true;
  const rect = rectOf(area);
  return Object.entries(cells).some(
    ([at, { value, formula }]) =>
      ((value !== null && value !== '') || formula !== undefined) && contains(rect, rectOf(at)),
  );
}

/** Programs make links of addresses that are typed: such a link says what its cell does. */
function isOfWhatWasTyped({ cells }: BookSheet, { at = '', link }: FileRemark): boolean {
  const { value, formula } = cells[at] ?? {};
  if (link === undefined || formula !== undefined || typeof value !== 'string') return false;
  return spelt(value) === spelt(link.to) && (link.tip === '' || spelt(link.tip) === spelt(link.to));
}
/** An address without what programs put before and behind it. */
const spelt = (address: string) =>
  address
    .trim()
    .toLowerCase()
    .replace(/^(?:mailto:|https?:\/\/)/, '')
    .replace(/\/$/, '');

/** A link on what the sheet itself says is a warning; one on a cell to be filled in, or where nothing stands, is not. */
function weighed({ cells }: BookSheet, remark: FileRemark): Finding {
  const { at, link } = remark;
  const told = finding(remark);
  if (link === undefined || at === undefined || !isAddress(at)) return told;
  const area = rectOf(at);
  const isOnOurs = Object.entries(cells).some(
    ([cell, { value, formula, style }]) =>
      (formula !== undefined || (value !== null && value !== '' && style?.locked !== false)) &&
      contains(area, rectOf(cell)),
  );
  return isOnOurs ? told : { ...told, severity: 'note' };
}

/** What is so of the workbook. */
export function workbookRemarks(file: readonly FileRemark[] = []): Finding[] {
  return file.filter(({ sheet }) => sheet === '').map(finding);
}

function finding({ sheet, at, message, expected, found, isGrave }: FileRemark): Finding {
  return {
    sheet,
    ...(at === undefined ? {} : { at }),
    kind: 'seen',
    severity: isGrave ? 'warning' : 'note',
    message,
    expected,
    found,
  };
}

function merged({ name, merges }: BookSheet, plan: Plan): Finding[] {
  const [wanted, came] = [new Set(plan.merges), new Set(merges)];
  return [
    ...merges
      .filter((range) => !wanted.has(range))
      .map(
        (range): Finding => ({
          ...{ sheet: name, at: range, kind: 'seen', severity: 'warning' },
          message: `The cells ${range} are merged: only the first of them is seen.`,
          expected: 'single cells',
          found: 'merged',
        }),
      ),
    ...plan.merges
      .filter((range) => !came.has(range))
      .map(
        (range): Finding => ({
          ...{ sheet: name, at: range, kind: 'seen', severity: 'note' },
          message: `The cells ${range} are no longer merged.`,
          expected: 'merged',
          found: 'single cells',
        }),
      ),
  ];
}

/**
 * Our notes say what a figure is and where it is from: another text is a lie about it. Programs keep them letter by letter
 * (held by test/audit/quietkinds) or, knowing none, leave out all of them; a few that are gone were taken away. What
 * people note beside them is theirs.
 */
function noted({ name, notes }: BookSheet, plan: Plan, own: readonly FileRemark[]): Finding[] {
  const oneSpelling = (text: string) => text.replace(/\r\n?/g, '\n').trim();
  const [wanted, came] = [plan.notes, notes].map(
    (list) => new Map(list.map(({ at, text }) => [at, oneSpelling(text)])),
  ) as [Map<string, string>, Map<string, string>];
  const where = { sheet: name, kind: 'seen' } as const;
  const added = [...came].flatMap(([at, found]): Finding[] => {
    // Programs that know only notes are given one in place of a comment, which is told itself.
    const isComment = own.some((remark) => remark.isComment === true && remark.at === at);
    if (wanted.has(at) || isComment) return [];
    const message = `${at} has a note that is not of the layout.`;
    return [{ ...where, at, severity: 'note', message, expected: 'no note', found }];
  });
  const gone = [...wanted.keys()].filter((at) => !came.has(at));
  if (gone.length === wanted.size && gone.length > 0) {
    return [
      {
        ...where,
        severity: 'note',
        message:
          'The sheet has none of its notes: they were deleted, or a program that has no notes left them out.',
        expected: `${wanted.size} notes`,
        found: 'none of them',
      },
      ...added,
    ];
  }
  const altered = [...wanted].flatMap(([at, planned]): Finding[] => {
    const found = came.get(at);
    if (found === planned) return [];
    const message = found === undefined ? `The note of ${at} is gone.` : `The note of ${at} was altered.`;
    return [{ ...where, at, severity: 'warning', message, expected: planned, found: found ?? 'no note' }];
  });
  return [...altered, ...added];
}

/** Conditional formats cell by cell: programs join and split their ranges. */
function coloured({ name, alerts, scales }: BookSheet, plan: Plan): Finding[] {
  const [wanted, came] = [byCell(plan), byCell({ alerts, scales })];
  const found: Finding[] = [];
  for (const at of new Set([...wanted.keys(), ...came.keys()])) {
    const [planned, now] = [wanted.get(at) ?? 'none', came.get(at) ?? 'none'];
    if (planned === now) continue;
    found.push({
      sheet: name,
      at,
      kind: 'seen',
      severity: 'warning',
      message: `The conditional formats of ${at} are not those of the layout.`,
      expected: planned,
      found: now,
    });
  }
  return found;
}

function byCell({ alerts, scales }: Pick<Plan, 'alerts' | 'scales'>): Map<string, string> {
  const found = new Map<string, string[]>();
  const add = (range: string, words: string) => {
    if (!isAddress(range) || cellCount(range) > AREA_MAX) return;
    for (const at of cellsOf(range)) found.set(at, [...(found.get(at) ?? []), words]);
  };
  for (const { range, begins, fill, color } of alerts)
    add(range, `“${begins}” ${color.toUpperCase()} on ${fill.toUpperCase()}`);
  for (const { range, low, middle, high } of scales)
    add(range, [low, ...(middle ? [middle] : []), high].join(' to ').toUpperCase());
  return new Map([...found].map(([at, words]) => [at, words.sort().join('; ')]));
}
