import { absolute, addressOf, quoteSheet, rectOf } from '../address';
import type { CellValue } from '../book';
import type { CellName } from '../names/all';
import type { SheetKind } from '../plan';
import { reportedNumber } from '../reported';
import { type CellSource, type FigureSpec, type Outline, outlineOf, type Source } from './outline';
import { canTally, type NamedCells, type Tally, tallyFormula, tallyValue } from './tally';

/** A sheet of the workbook as the overview lists it. */
export interface ListedSheet {
  readonly sheet: string;
  readonly kind: SheetKind;
  readonly id: string;
  readonly isSealed: boolean;
  /** The cells behind the names that `lookedAt` asks for. */
  readonly cells: NamedCells;
}

/** A sheet that was listed before and is no longer there. */
export interface GoneSheet {
  readonly sheet: string;
  readonly kind: string;
  readonly id: string;
}

interface Figure {
  readonly label: string;
  readonly value: CellValue;
  readonly u: CellValue;
  readonly decision: CellValue;
}

/** What the overview tells of a sheet, from values that were read. */
export interface Told {
  readonly about: string;
  readonly state: string;
  readonly figures: readonly Figure[];
}

/** The kinds that are told of; an overview is not told of itself. */
export function isListed(kind: SheetKind): boolean {
  return outlineOf(kind, () => false) !== undefined;
}

function outlineFor({ kind, cells }: ListedSheet): Outline | undefined {
  return outlineOf(kind, (name) => cells[name] !== undefined);
}

/** A kind in words: "spot check". */
export function kindWords(listed: ListedSheet): string {
  return outlineFor(listed)?.words ?? listed.kind;
}

/** The figures of a sheet that it has cells for. */
export function figuresOf(listed: ListedSheet): readonly FigureSpec[] {
  return outlineFor(listed)?.figures.filter(({ value }) => hasSource(value, listed.cells)) ?? [];
}

function hasSource(source: Source, cells: NamedCells): boolean {
  return 'count' in source ? canTally(source, cells) : cells[source.name] !== undefined;
}

export const REMOVED = 'removed';
export const GONE = 'gone';

/** Says in a formula that something is gone where the sheet it refers to has been deleted. */
function ifThere(listed: ListedSheet, gone: string, value: string): string {
  // ROWS asks nothing of the cell but that it is there.
  return `IF(ISERROR(ROWS(${quoteSheet(listed.sheet)}!$A$1)),"${gone}",${value})`;
}

const cellRef = ({ sheet, cells }: ListedSheet, { name, row = 0 }: CellSource): string | undefined => {
  const place = cells[name];
  if (!place) return undefined;
  const rect = rectOf(place.address);
  const at = addressOf({ row: rect.row + row, column: rect.column, rows: 1, columns: 1 });
  return `${quoteSheet(sheet)}!${absolute(at)}`;
};
const refer = ({ sheet, cells }: ListedSheet) => {
  return (name: CellName) => `${quoteSheet(sheet)}!${absolute(cells[name]!.address)}`;
};

/**
 * A figure that stands elsewhere, as a formula with leading "="; empty where the sheet has no cell for it. A word
 * in place of a number is none: how far the sheet is stands under its state. With a U it is rounded as it is
 * reported, here as in the pane.
 */
export function figureFormula(
  listed: ListedSheet,
  { isText, isFinal, u }: FigureSpec,
  source: Source | undefined,
  isComplete: string,
): string {
  const doubt = isText ? undefined : u && cellRef(listed, u);
  const final = (value: string) => (isFinal ? `IF(${isComplete},${value},"")` : value);
  if (source !== undefined && 'count' in source)
    return canTally(source, listed.cells)
      ? `=${ifThere(listed, '', final(tallyFormula(source, listed.cells, refer(listed))))}`
      : '';
  return linkFormula(listed, source, (ref) =>
    final(isText ? `${ref}&""` : `IF(ISNUMBER(${ref}),${doubt ? reportedNumber(ref, doubt) : ref},"")`),
  );
}

/** Words that stand elsewhere. */
export function wordsFormula(listed: ListedSheet, source: CellSource | undefined): string {
  return linkFormula(listed, source, (ref) => `${ref}&""`);
}

/** An error in the cell is said in a word. */
function linkFormula(
  listed: ListedSheet,
  source: CellSource | undefined,
  show: (ref: string) => string,
): string {
  const ref = source && cellRef(listed, source);
  return ref ? `=${ifThere(listed, '', `IF(ISERROR(${ref}),"${ERROR}",${show(ref)})`)}` : '';
}

/** What the sheet is about, as a formula with leading "="; empty where its kind says nothing. */
export function aboutFormula(listed: ListedSheet): string {
  const outline = outlineFor(listed);
  if (!outline) return '';
  const { about } = outline;
  if ('tally' in about) {
    if (!canTally(about.tally, listed.cells)) return '';
    const n = tallyFormula(about.tally, listed.cells, refer(listed));
    return `=${ifThere(listed, '', `${n}&IF(${n}=1," ${about.one}"," ${about.many}")`)}`;
  }
  const texts = about.flatMap((name) => {
    const ref = cellRef(listed, { name });
    return ref ? [`IF(ISERROR(${ref}),"",${ref}&"")`] : [];
  });
  if (texts.length === 0) return '';
  const joined = texts.reduce((before, text) => `${before}&IF(OR(${before}="",${text}=""),"",", ")&${text}`);
  return `=${ifThere(listed, '', joined)}`;
}

/** How many are done and of how many, as formulas with leading "="; undefined where the sheet does not tell. */
export function countFormulas(
  listed: ListedSheet,
): { readonly done: string; readonly all: string } | undefined {
  const outline = outlineFor(listed);
  if (!outline || !canTally(outline.done, listed.cells) || !canTally(outline.all, listed.cells))
    return undefined;
  const count = (tally: Tally) => `=${ifThere(listed, '', tallyFormula(tally, listed.cells, refer(listed)))}`;
  return { done: count(outline.done), all: count(outline.all) };
}

/** The state as a formula with leading "=", from the cells beside it that count and the one that says "sealed". */
export function stateFormula(listed: ListedSheet, done: string, all: string, seal: string): string {
  const of = `${done}&" of "&${all}`;
  const open = `IF(COUNT(${done},${all})<2,"${UNKNOWN}",IF(${done}=0,"empty",IF(${done}<${all},"in progress, "&${of},"complete")))`;
  const sealed = `${seal}&IF(COUNT(${done},${all})<2,"",IF(${done}<${all}," at "&${of},""))`;
  return `=${ifThere(listed, REMOVED, `IF(${seal}="",${open},${sealed})`)}`;
}

const UNKNOWN = 'not known';
const ERROR = 'error';

/** The same in words from values: what the pane lists. */
export function tell(listed: ListedSheet): Told {
  const outline = outlineFor(listed);
  const { cells, isSealed } = listed;
  if (!outline) return { about: '', state: isSealed ? 'sealed' : UNKNOWN, figures: [] };
  const isComplete = tallyValue(outline.done, cells) >= tallyValue(outline.all, cells);
  return {
    about: aboutOf(outline, cells),
    state: stateOf(outline, cells, isSealed),
    figures: figuresOf(listed).map(({ label, value, u, decision, isText, isFinal }) => {
      const figure = (source: Source | undefined) => {
        if (isFinal && !isComplete) return null;
        const found = readSource(source, cells);
        return isText || typeof found !== 'string' || found === ERROR ? found : null;
      };
      return { label, value: figure(value), u: figure(u), decision: readSource(decision, cells) };
    }),
  };
}

function aboutOf({ about }: Outline, cells: NamedCells): string {
  if ('tally' in about) {
    if (!canTally(about.tally, cells)) return '';
    const n = tallyValue(about.tally, cells);
    return `${n} ${n === 1 ? about.one : about.many}`;
  }
  return about
    .map((name) => cells[name]?.values?.[0]?.[0] ?? '')
    .filter((value) => typeof value !== 'object' && value !== '')
    .join(', ');
}

function stateOf({ done, all }: Outline, cells: NamedCells, isSealed: boolean): string {
  if (!canTally(done, cells) || !canTally(all, cells)) return isSealed ? 'sealed' : UNKNOWN;
  const [n, m] = [tallyValue(done, cells), tallyValue(all, cells)];
  if (isSealed) return n < m ? `sealed at ${n} of ${m}` : 'sealed';
  if (n === 0) return 'empty';
  return n < m ? `in progress, ${n} of ${m}` : 'complete';
}

function readSource(source: Source | undefined, cells: NamedCells): CellValue {
  if (source === undefined) return null;
  if ('count' in source) return canTally(source, cells) ? tallyValue(source, cells) : null;
  const value = cells[source.name]?.values?.[source.row ?? 0]?.[0] ?? null;
  return typeof value === 'object' && value !== null ? ERROR : value;
}
