import type { Book, DefinedName } from '../sheets/book';
import { callsOurs } from '../sheets/calls';
import { type Moment, timeWords } from '../sheets/report';
import { isError } from './formula/value';
import { BOOK, REGISTER, SEAL_NAMES } from './seal/names';
import type { SealReport } from './seal/report';

/*
 * A plain copy: the workbook without our functions. Their results stand as values, the plain formulas beside them
 * calculate on. What is in it is said here; writing it is the business of whoever writes files.
 */

/** Name of the workbook that marks a plain copy. */
export const PLAIN_COPY = 'LightPlainCopy';
const VERSION = 1;

/** Sheet name that the cover asks for. */
export const COVER_TITLE = 'Plain copy';

interface PlainCopy {
  /** Cells whose formula goes and whose result stays, by sheet. */
  readonly values: ReadonlyMap<string, readonly string[]>;
  readonly notes: ReadonlyMap<string, readonly string[]>;
  readonly cover: { readonly title: string; readonly lines: readonly Line[] };
  readonly dropped: (name: string) => boolean;
  readonly mark: DefinedName;
}
type Line =
  | { readonly kind: 'title' | 'heading' | 'text'; readonly text: string }
  | { readonly kind: 'head' | 'row'; readonly cells: readonly string[] };

export type PlainAnswer =
  | { readonly ok: true; readonly copy: PlainCopy }
  | { readonly ok: false; readonly why: string; readonly remedy: string };

/** Errors that are no result: the function was not computed. */
const NOT_COMPUTED: ReadonlySet<string> = new Set(['#NAME?', '#BUSY!', '#CALC!']);
const LISTED = 5;

/**
 * How to make a plain copy of a workbook, or why there is none to make.
 * @param reports on the seals of its sheets, compared just now
 */
export function plainCopy(book: Book, moment: Moment, reports: readonly SealReport[]): PlainAnswer {
  const values = functionCells(book);
  if (values.size === 0) {
    return {
      ok: false,
      why: 'No cell of this workbook calls a function of ours: any spreadsheet program can use it as it is.',
      remedy: 'Hand over the workbook itself.',
    };
  }
  const missing = notComputed(book, values);
  if (missing.length > 0) {
    const more = missing.length > LISTED ? ` and ${missing.length - LISTED} more` : '';
    return {
      ok: false,
      why: `${missing.length === 1 ? '1 result is not calculated, so there is nothing to keep of it' : `${missing.length} results are not calculated, so there is nothing to keep of them`}: ${missing.slice(0, LISTED).join(', ')}${more}.`,
      remedy: 'Refresh the results where the add-in is loaded, then make the copy again.',
    };
  }
  const cover = coverLines(book, values, moment, reports);
  const notes = new Map([...values].map(([sheet, cells]) => [sheet, noteLines(cells.length, moment)]));
  return {
    ok: true,
    copy: {
      values,
      notes,
      cover: { title: COVER_TITLE, lines: cover },
      dropped: isSealName,
      mark: {
        name: PLAIN_COPY,
        refersTo: `="light-plain|${VERSION}|${moment.when}|${moment.program.replace(/[|"]/g, '')}"`,
        hidden: true,
      },
    },
  };
}

/** When a workbook was made as a plain copy, in words; undefined if it is none. */
export function plainCopyOf({ names }: Pick<Book, 'names'>): string | undefined {
  const mark = names.find(({ name }) => name === PLAIN_COPY);
  const when = mark && /^="light-plain\|\d+\|([^|"]*)\|/.exec(mark.refersTo)?.[1];
  return when === undefined ? undefined : timeWords(when);
}

/** Cells that call functions of ours, by sheet. */
function functionCells(book: Book): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const { name, cells } of book.sheets) {
    const own = Object.entries(cells).flatMap(([at, { formula }]) =>
      formula !== undefined && callsOurs(formula) ? [at] : [],
    );
    if (own.length > 0) found.set(name, own);
  }
  return found;
}

/** Places of functions whose result is not there: `“Run 1” B32 (#NAME?)`. */
function notComputed(book: Book, values: ReadonlyMap<string, readonly string[]>): string[] {
  return [...values].flatMap(([sheet, cells]) => {
    const own = book.sheets.find(({ name }) => name === sheet)!.cells;
    // An empty text reads as nothing; a sheet without a single result was never calculated.
    const isCalculated = Object.values(own).some(
      ({ formula, value }) => formula !== undefined && value !== null,
    );
    return cells.flatMap((at) => {
      const { value } = own[at]!;
      if (value === null && !isCalculated) return [`“${sheet}” ${at} (empty)`];
      return isError(value) && NOT_COMPUTED.has(value.error) ? [`“${sheet}” ${at} (${value.error})`] : [];
    });
  });
}

/** Names of seals, of a sheet or of the workbook: a seal holds for the original only. */
function isSealName(name: string): boolean {
  return SEAL_NAMES.test(name) || [BOOK, REGISTER].some((own) => name === own || name.startsWith(`${own}.`));
}

const STATES: Readonly<Record<SealReport['state'], string>> = {
  none: 'not sealed',
  deleted: 'was sealed, and THE SEAL WAS DELETED',
  holds: 'sealed, and the seal held',
  'not calculated': 'sealed, and the seal held for all that was typed and built',
  broken: 'sealed, and THE SEAL DID NOT HOLD',
  unreadable: 'has a seal that could not be read',
};

function sealWords(report: SealReport | undefined): string {
  if (!report) return STATES.none;
  const { state, record, signer } = report;
  const by = record
    ? ` (by ${record.who || 'nobody named'}, ${timeWords(record.when)}, SHA-256 ${record.hash}${signer ? `, signed with the key ${signer}` : ''})`
    : '';
  return `${STATES[state]}${by}`;
}

function coverLines(
  book: Book,
  values: ReadonlyMap<string, readonly string[]>,
  moment: Moment,
  reports: readonly SealReport[],
): Line[] {
  const rows = book.sheets.map(({ name, cells }): Line => {
    const frozen = values.get(name)?.length ?? 0;
    const formulas = Object.values(cells).filter(({ formula }) => formula !== undefined).length - frozen;
    const report = reports.find(({ sheet }) => sheet === name);
    return { kind: 'row', cells: [name, String(frozen), String(formulas), sealWords(report)] };
  });
  const text = (words: string): Line => ({ kind: 'text', text: words });
  const heading = (words: string): Line => ({ kind: 'heading', text: words });
  return [
    { kind: 'title', text: 'Plain copy of a light output workbook' },
    text(
      'A copy to hand over: any spreadsheet program can use it, without the add-in that made the original.',
    ),
    text(
      `Made on ${timeWords(moment.when)} by ${moment.who || '(not stated)'} with Light Output Workbook ${moment.program}.`,
    ),
    text(''),
    heading('What stands in it'),
    {
      kind: 'head',
      cells: [
        'Sheet',
        'Results of functions that stand as values',
        'Formulas that calculate on',
        'Seal of the original',
      ],
    },
    ...rows,
    text(''),
    heading('What remains without the add-in'),
    text(
      'Results of the add-in’s functions (those headed “by LIGHT function”, and their remarks) stand as the values they had when the copy was made. They do not follow what is typed afterwards.',
    ),
    text(
      'Plain formulas go on calculating, each beside the result it repeats. After a change of a reading the cell between the two says “differ”: the plain formula is then the one that follows.',
    ),
    text(
      'Names, input cells with their rules and notes, charts, print areas and protection are those of the original.',
    ),
    text(
      'A seal holds for the original only. What the original’s seals were is said above; this copy bears none.',
    ),
    text(
      'Where the add-in is installed, its check lists the values that stand in place of functions and can put each function back.',
    ),
  ];
}

const NOTE_BEGINS = 'Plain copy of ';
const SEE_COVER = `The plain formulas beside them do. See the sheet “${COVER_TITLE}”.`;
/** What is written below a sheet. */
function noteLines(count: number, moment: Moment): string[] {
  return [
    `${NOTE_BEGINS}${timeWords(moment.when)}: ${count} ${count === 1 ? 'result of a LIGHT function on this sheet stands as a value and no longer follows' : 'results of LIGHT functions on this sheet stand as values and no longer follow'} what is typed.`,
    SEE_COVER,
  ];
}

/** Whether words are those that a plain copy of that time has below its sheets. */
export function isPlainNote(words: string, made: string): boolean {
  return words.includes(SEE_COVER) || words.includes(`${NOTE_BEGINS}${made}: `);
}
