import { type ReadonlySignal, signal } from '@preact/signals';
import { handToBrowser } from './download';

interface Named {
  readonly name: string;
  /** The media type. */
  readonly type: string;
}

/** A file of text can be copied by hand where none can be saved. */
export interface TextFile extends Named {
  readonly text: string;
  /** Put in front of the text in the file only. */
  readonly mark?: string;
}

interface OtherFile extends Named {
  readonly contents: BlobPart;
  /** The way round, in whole sentences, where the file does not arrive. */
  readonly otherwise: string;
}

export type SavedFile = TextFile | OtherFile;

export const isText = (file: SavedFile): file is TextFile => 'text' in file;

export interface Offered {
  /** The file's name, or "13 files". */
  readonly names: string;
  readonly isOne: boolean;
  /** What a file held is let go once the person has it. */
  readonly file: SavedFile | undefined;
}

/** `kept`: the person took the text by hand instead. */
export type Arrived = 'asked' | 'came' | 'missing' | 'kept';

/** One place of the pane that saves files. Whether one arrived is known when the person has said so, never before. */
export interface Saving {
  /** What was offered last. */
  readonly offered: ReadonlySignal<Offered | undefined>;
  readonly arrived: ReadonlySignal<Arrived | undefined>;
  /** Hands a file to the browser, and asks. */
  offer(file: SavedFile): void;
  /** Asks of files that were handed over one after the other: `file` is the last of so many. */
  ask(file: SavedFile, count: number): void;
  tell(arrived: Exclude<Arrived, 'asked'>): void;
  clear(): void;
}

/** @param told hears what the person said of a file */
export function createSaving(told: (arrived: Exclude<Arrived, 'asked'>) => void = () => {}): Saving {
  const offered = signal<Offered | undefined>(undefined);
  const arrived = signal<Arrived | undefined>(undefined);
  const ask = (file: SavedFile, count: number) => {
    offered.value = { names: count === 1 ? file.name : `${count} files`, isOne: count === 1, file };
    arrived.value = 'asked';
  };
  return {
    offered,
    arrived,
    offer: (file) => {
      handOver(file);
      ask(file, 1);
    },
    ask,
    tell: (answer) => {
      if (answer !== 'missing' && offered.peek()) offered.value = { ...offered.peek()!, file: undefined };
      arrived.value = answer;
      told(answer);
    },
    clear: () => {
      offered.value = undefined;
      arrived.value = undefined;
    },
  };
}

export function handOver(file: SavedFile): void {
  const contents = isText(file) ? `${file.mark ?? ''}${file.text}` : file.contents;
  handToBrowser(contents, file.name, file.type);
}

/** Separated values as a file. The mark in front tells spreadsheet programs that it is UTF-8. */
export function csvFile(text: string, name: string): TextFile {
  return { name, type: 'text/csv;charset=utf-8', text, mark: '\ufeff' };
}
