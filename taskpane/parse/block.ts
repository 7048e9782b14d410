import { type Line, split } from '../../src/csv/split';
import { likelyMarks } from '../../src/csv/table';
import { loneOnes } from '../../src/photometry/overrange';
import type { IlluminanceUnit } from '../../src/photometry/units';
import { type Entry, readCell } from './cell';
import { type Fit, layOut, shapesWanted } from './layout';
import { type DecimalMark, plainText, typedNumber } from './number';
import type { BlockTarget, Decisions } from './target';

/** A question with its answers in words; the answer is put into `Decisions`. */
export interface Question {
  readonly asks: 'mark' | 'ones';
  readonly message: string;
  readonly answers: readonly { readonly label: string; readonly decision: Decisions }[];
}

export interface Block {
  readonly target: BlockTarget;
  /** Laid out as on the screen. */
  readonly entries: readonly (readonly Entry[])[];
}

/** A pasted text as understood, or why it was not. Nothing may be written while a problem or question stands. */
export interface Pasted {
  /** How the text was taken apart, for the person to check: "One column of nine, read row by row …". */
  readonly how: readonly string[];
  /** The readings came one after another: how the rows were walked makes a difference. */
  readonly isSequence: boolean;
  readonly blocks: readonly Block[];
  readonly problems: readonly string[];
  readonly questions: readonly Question[];
}

/** More text than any run has readings: not a block of readings. */
const TEXT_MAX = 20_000;

/**
 * Reads a block of readings copied from a spreadsheet, a CSV file or a note.
 * @param unit the meter's unit on the sheet; a reading in another unit is refused
 * @param commaFirst offers the decimal comma first, where the spreadsheet program uses it
 */
export function readBlock(
  text: string,
  targets: readonly BlockTarget[],
  unit: IlluminanceUnit,
  decisions: Decisions = {},
  commaFirst = false,
): Pasted {
  if (text.length > TEXT_MAX)
    return refused('This is far more text than a run has readings: copy only the readings.');
  if (text.trim() === '') return refused('Nothing has been pasted yet.');
  const found = likelyMarks(text).map((mark) => ({ mark, rows: level(split(text, mark)) }));
  const fits = found.flatMap(({ rows, mark }) => layOut(rows, mark, targets, decisions.turn));
  if (fits.length === 0) {
    const { rows } = found.reduce((a, b) => (a.rows[0]!.length >= b.rows[0]!.length ? a : b));
    const came = `${count(rows.length, 'row')} and ${count(rows[0]!.length, 'column')}`;
    const isOne =
      targets.length > 1 && found.some((one) => layOut(one.rows, one.mark, targets.slice(0, 1)).length > 0);
    const way = isOne ? ' Readings of one field alone: choose that field above.' : '';
    return refused(`Expected ${shapesWanted(targets)}. What came has ${came}.${way}`);
  }
  const read = fits.map((one) => understand(one, targets, unit, decisions, commaFirst));
  // Where a text can be taken apart in two ways, the way that leaves fewer unreadable cells was meant.
  return read.reduce((best, other) => (other.problems.length < best.problems.length ? other : best));
}

/** True if the preview may be written to the sheet. */
export function isReady({ blocks, problems, questions }: Pasted): boolean {
  return (
    blocks.length > 0 &&
    problems.length === 0 &&
    questions.length === 0 &&
    countOf(blocks, 'number', 'over') > 0
  );
}

/** How many cells of some kinds the blocks hold. */
export function countOf(blocks: readonly Block[], ...kinds: readonly Entry['kind'][]): number {
  return blocks.flatMap(({ entries }) => entries.flat()).filter(({ kind }) => kinds.includes(kind)).length;
}

/** Rows of equal length: a spreadsheet leaves nothing out, a typed CSV may end a row early. */
function level(lines: readonly Line[]): string[][] {
  const width = lines.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  return lines.map(({ cells }) => [...cells, ...Array<string>(width - cells.length).fill('')]);
}

function refused(problem: string): Pasted {
  return { how: [], isSequence: false, blocks: [], problems: [problem], questions: [] };
}

function understand(
  { how, isSequence, grids }: Fit,
  targets: readonly BlockTarget[],
  unit: IlluminanceUnit,
  decisions: Decisions,
  commaFirst: boolean,
): Pasted {
  const texts = grids.flat(2);
  const proof = provenMark(texts);
  const mark = decisions.mark ?? proof?.mark;
  const blocks = grids.map((grid, i) => {
    const target = targets[i]!;
    const lone = loneOnesIn(grid.flat(), mark);
    const entries = grid.map((row, r) =>
      row.map((cell, c) => {
        const index = r * target.shape.columns + c;
        return readCell(cell, {
          target,
          index,
          unit,
          mark,
          isLoneOne: lone.has(index),
          ones: decisions.ones,
        });
      }),
    );
    return { target, entries };
  });
  const all = blocks.flatMap(({ entries }) => entries.flat());
  const proofUsed = proof && texts.some((text) => typedNumber(text).kind === 'ambiguous');
  return {
    how: [
      ...how,
      ...(proofUsed ? [`The ${proof.mark} is the decimal mark, as in \u201c${proof.example}\u201d.`] : []),
    ],
    isSequence,
    blocks,
    problems: all.flatMap((entry) => (entry.kind === 'refused' ? [entry.message] : [])),
    questions: questionsAbout(all, commaFirst),
  };
}

/** The decimal mark that the other numbers of the block prove, if they agree. */
export function provenMark(texts: readonly string[]): { mark: DecimalMark; example: string } | undefined {
  const proofs = texts.flatMap((text) => {
    const typed = typedNumber(text);
    return typed.kind === 'number' && typed.proves ? [{ mark: typed.proves, example: plainText(text) }] : [];
  });
  return proofs.every(({ mark }) => mark === proofs[0]!.mark) ? proofs[0] : undefined;
}

/** Places of a number 1 among much larger ones: on many meters that is the sign for over range. */
export function loneOnesIn(texts: readonly string[], mark: DecimalMark | undefined): ReadonlySet<number> {
  const values = texts.map((text) => {
    const typed = typedNumber(text, mark);
    return typed.kind === 'number' ? typed.value : undefined;
  });
  return new Set(loneOnes(values).at);
}

function questionsAbout(entries: readonly Entry[], commaFirst: boolean): Question[] {
  const questions: Question[] = [];
  const decimal = entries.find((entry) => entry.kind === 'decimal?');
  if (decimal?.kind === 'decimal?') {
    const answers = [
      { label: `${decimal.point}: the point is the decimal mark`, decision: { mark: 'point' } as const },
      { label: `${decimal.comma}: the comma is the decimal mark`, decision: { mark: 'comma' } as const },
    ];
    questions.push({
      asks: 'mark',
      message: `\u201c${decimal.text}\u201d can mean ${decimal.point} or ${decimal.comma}. Which is it?`,
      answers: commaFirst ? answers.reverse() : answers,
    });
  }
  const ones = entries.filter((entry) => entry.kind === 'one?');
  if (ones.length > 0) {
    questions.push({
      asks: 'ones',
      message: `A lone 1 stands at ${ones.map(({ where }) => where).join('; ')}. On many meters that means over range.`,
      answers: [
        { label: 'It means over range', decision: { ones: 'over range' } },
        { label: 'The reading is 1', decision: { ones: 'number' } },
      ],
    });
  }
  return questions;
}

/** `(1, 'row')` → "1 row", `(2, 'row')` → "2 rows". */
export function count(n: number, word: string): string {
  return `${n} ${word}${n === 1 ? '' : 's'}`;
}
