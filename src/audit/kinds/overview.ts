import { cellName, rectOf } from '../../sheets/address';
import type { Book } from '../../sheets/book';
import { isNameOf } from '../../sheets/names/all';
import {
  type GoneSheet,
  isListed,
  type ListedSheet,
  lookedAt,
  OVERVIEW_VERSION,
  overviewPlan,
} from '../../sheets/overview';
import { figuresOf } from '../../sheets/overview/listed';
import type { NamedCells } from '../../sheets/overview/tally';
import type { Plan } from '../../sheets/plan';
import type { Finding } from '../check/finding';
import { inWords } from '../number';
import { isSealed } from '../seal/seal';
import { gridOf, ourSheets, type SheetView, sheetOf, valueAt } from '../view';
import { cellNamed, keptPlans, majority, textAt, withValues } from './cells';
import type { KindAudit, Unknown } from './kind';
import { foreignSheets } from './links';
import { type OwnLabel, resultCells, wordsNamed } from './results';

const kept = keptPlans();
const COLUMNS = [
  'SheetNames',
  'Kinds',
  'Abouts',
  'States',
  'DoneCounts',
  'ResultLabels',
  'Decisions',
  'Marks',
];
/** Places of the columns of the table. */
const AT = {
  sheet: 0,
  kind: 1,
  about: 2,
  state: 3,
  done: 4,
  all: 5,
  value: 7,
  u: 8,
  decision: 9,
  seal: 10,
  mark: 11,
} as const;

/** A sheet the overview lists, the row it begins in, and the sheet itself unless it is gone. */
interface Entry {
  readonly row: number;
  readonly listed: ListedSheet | GoneSheet;
  readonly view?: SheetView;
}

/**
 * The entries of an overview from top to bottom; each is told by what its row is linked to. What a sheet was called
 * that is gone is known from the overview alone: a seal can hold it, a check cannot.
 */
function entriesOf(view: SheetView, book: Book | undefined): Entry[] | Unknown {
  const areas = COLUMNS.flatMap((name) => view.places.get(name.toLowerCase())?.address ?? []).map(rectOf);
  const [first, rows] = [majority(areas.map(({ row }) => row)), majority(areas.map((area) => area.rows))];
  if (first === undefined || rows === undefined) return { why: 'Its names no longer tell what it lists.' };
  if (!book) return { why: 'The sheets it lists were not looked at.' };
  const left = leftOf(view);
  const found: Entry[] = [];
  for (let row = first; row < first + rows; ) {
    const at = (column: number) => cellName(row, left + column);
    const linked = majority(
      Object.values(AT)
        .map((column) => view.sheet.cells[at(column)]?.formula ?? '')
        .flatMap((formula) => foreignSheets(view, formula)),
    );
    const sheet = linked === undefined ? undefined : sheetOf(book, linked);
    if (linked !== undefined && !sheet) return { why: `It lists “${linked}”, which was not looked at.` };
    if (sheet?.identity && isListed(sheet.identity.kind)) {
      const listed = listedOf(sheet);
      found.push({ row, listed, view: sheet });
      row += Math.max(1, figuresOf(listed).length);
      continue;
    }
    const hasFormula = view.sheet.cells[at(AT.state)]?.formula !== undefined;
    if (hasFormula)
      return { why: `Row ${row + 1} lists a sheet that is gone: bring the overview up to date.` };
    const [name, kind, id] = [AT.sheet, AT.kind, AT.mark].map((column) => textAt(view, at(column)));
    if (name !== NOTHING) found.push({ row, listed: { sheet: name!, kind: kind!, id: id! } });
    row++;
  }
  return found;
}

const NOTHING = 'No sheet of ours yet.';

/** The column that the table begins in. */
function leftOf({ places }: SheetView): number {
  const address = places.get('sheetnames')?.address;
  return address === undefined ? 0 : rectOf(address).column;
}

function listedOf(view: SheetView): ListedSheet {
  const { kind, id } = view.identity!;
  const cells: NamedCells = Object.fromEntries(
    lookedAt(kind).flatMap((name) => {
      const place = view.places.get(name.toLowerCase());
      return place ? [[name, { address: place.address, values: gridOf(view, name) }]] : [];
    }),
  );
  return { sheet: view.sheet.name, kind, id, isSealed: isSealed(view), cells };
}

function isHere(listed: ListedSheet | GoneSheet): listed is ListedSheet {
  return 'cells' in listed;
}

function planOf(view: SheetView, book: Book | undefined): Plan | Unknown {
  const entries = entriesOf(view, book);
  if ('why' in entries) return entries;
  const listed = entries.map((entry) => entry.listed);
  const sheets = listed.filter(isHere).map((each) => ({ ...each, cells: placesOf(each.cells) }));
  const gone = listed.filter((each): each is GoneSheet => !isHere(each));
  const plan = kept(JSON.stringify([sheets, gone]), () => overviewPlan({ sheets, gone }, 'expected'));
  // What the pane brings up to date may lag behind; it is noted, and not an alteration.
  const left = leftOf(view);
  const down = rectOf(cellNamed(plan, 'SheetNames')).row - Math.min(...entries.map(({ row }) => row));
  const values = entries.flatMap(({ row, view: sheet }) =>
    sheet
      ? [AT.sheet, AT.seal].map(
          (column) =>
            [cellName(row + down, column), textAt(view, cellName(row, left + column)) || undefined] as const,
        )
      : [],
  );
  return withValues(plan, Object.fromEntries(values));
}

function placesOf(cells: NamedCells): NamedCells {
  return Object.fromEntries(Object.entries(cells).map(([name, { address }]) => [name, { address }]));
}

/** Names of sheets and words about seals that lag behind. */
function findings(view: SheetView, _plan: Plan, book: Book | undefined): Finding[] {
  const entries = entriesOf(view, book);
  if ('why' in entries) return [];
  const note = (at: string, expected: string): Finding[] => {
    const found = textAt(view, at);
    if (found === expected) return [];
    return [
      {
        sheet: view.sheet.name,
        at,
        kind: 'text',
        severity: 'note',
        message: `${at} is out of date: bring the overview up to date.`,
        expected: inWords(expected),
        found: inWords(found),
      },
    ];
  };
  const known = new Set(entries.map(({ listed }) => listed.id));
  const missing = book
    ? ourSheets(book).filter(({ identity }) => identity && isListed(identity.kind) && !known.has(identity.id))
    : [];
  return [
    ...entries.flatMap(({ row, view: sheet }) =>
      sheet
        ? [
            ...note(cellName(row, AT.sheet), sheet.sheet.name),
            ...note(cellName(row, AT.seal), isSealed(sheet) ? 'sealed' : ''),
          ]
        : [],
    ),
    ...missing.map(
      ({ sheet }): Finding => ({
        sheet: view.sheet.name,
        kind: 'text',
        severity: 'note',
        message: `The overview does not list “${sheet.name}”: bring the overview up to date.`,
        expected: sheet.name,
        found: 'not listed',
      }),
    ),
  ];
}

/** Figures of a sheet stand below one another; its name stands beside the first of them only. */
function ownLabel(view: SheetView, plan: Plan): OwnLabel {
  const text = (column: string, row: number) => {
    const area = plan.names.find((each) => each.name === column)?.range;
    const value = area && valueAt(view, cellName(row, rectOf(area).column));
    return typeof value === 'string' ? value : '';
  };
  return (at, name) => {
    const [, stem] = /^(.*)\[\d+\]$/.exec(name) ?? [];
    if (stem === undefined || !isNameOf('overview', stem)) return undefined;
    const { row } = rectOf(at);
    let first = row;
    while (first > 0 && text('SheetNames', first) === '') first--;
    const figure = stem === 'States' ? '' : text('ResultLabels', row);
    return [text('SheetNames', first), figure, wordsNamed(plan, stem)].filter(Boolean).join(', ');
  };
}

export const OVERVIEW: KindAudit = {
  version: OVERVIEW_VERSION,
  plan: planOf,
  results: (view, plan) =>
    resultCells(
      view,
      plan,
      ['Tally', 'States', 'ResultValues', 'ResultU', 'Decisions'],
      ownLabel(view, plan),
    ),
  findings,
};
