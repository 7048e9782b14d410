import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Finding } from '../../src/audit/check/finding';
import type { SealReport } from '../../src/audit/seal/verify';

/** A value as JSON holds it; an error cell is its text. */
export type Value = number | string | boolean | null;
/** A cell, a column as a list, or the rows of an area. */
export type Values = Value | readonly Value[] | readonly (readonly Value[])[];

/** What a workbook showed when it was made, as the program of that time told it. */
export interface Frozen {
  readonly file: string;
  readonly sha256: string;
  /** The commit it was made at. */
  readonly program: string;
  readonly sheets: readonly FrozenSheet[];
  readonly findings: readonly Finding[];
  readonly verify: {
    readonly seals: readonly Pick<SealReport, 'sheet' | 'state' | 'signature' | 'signer'>[];
  };
  /** As `light results` gave them. */
  readonly results: readonly FrozenResult[];
}
export interface FrozenSheet {
  readonly sheet: string;
  /** Of sheets of ours. */
  readonly kind?: string;
  readonly version?: number;
  /** By the name of the cells: what was typed, and what was computed, with its digits as they show. */
  readonly typed: Readonly<Record<string, Values>>;
  readonly results: Readonly<Record<string, { readonly value: Values; readonly shown: unknown }>>;
}
interface FrozenResult {
  readonly sheet: string;
  readonly kind: string;
  readonly name: string;
  readonly value: Value;
}

/** A folder of workbooks that one program made; `first` is the oldest. */
export interface Generation {
  readonly name: string;
  readonly folder: string;
  /** Names of the workbooks without their ending. */
  readonly files: readonly string[];
}

export const GENERATIONS: readonly Generation[] = readdirSync(import.meta.dirname, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => {
    const folder = join(import.meta.dirname, name);
    const workbooks = readdirSync(folder).filter((file) => file.endsWith('.xlsx'));
    return { name, folder, files: workbooks.map((file) => basename(file, '.xlsx')) };
  });

/** Large, and made of what smaller files hold as well: what takes long is done with them in the long run of the suite. */
export const LARGE: readonly string[] = [
  'first/example-workbench',
  'first/example-command-line',
  'first/acceptance-fullest',
  'first/comparison-fullest',
  'first/overview-fullest',
  'first/template-command-line',
  'first/batch-200-units',
  'second/example-command-line',
  'second/example-workbench',
  'second/comparison-fullest',
  'third/example-command-line',
  'third/comparison-fullest',
];

export function frozenOf({ folder }: Generation, file: string): Frozen {
  return JSON.parse(readFileSync(join(folder, `${file}.json`), 'utf8'));
}
