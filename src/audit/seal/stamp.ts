import type { Book, CellValue } from '../../sheets/book';
import {
  type CertifiedSeal,
  SEAL_FOUND,
  SEAL_SENTENCES,
  SEAL_STAMPS,
  SEALED_NAMES,
  SEALED_RESULTS,
  type SealedResult,
  stampValues,
} from '../../sheets/certificate/seal';
import type { CellName } from '../../sheets/names/all';
import { timeWords } from '../../sheets/report';
import { tokens } from '../../sheets/tokens';
import { sheetNamed } from '../formula/normal';
import { gridOf, ourSheets, type SheetView, viewOf } from '../view';
import { isSealed } from './seal';
import type { SealReport } from './verify';

/**
 * What a certificate says of its run's seal, from a comparison made just now; undefined where there is none.
 * @param compared ISO time, UTC
 */
export function certifiedSeal(
  report: SealReport,
  run: SheetView,
  compared: string,
): CertifiedSeal | undefined {
  const { record, state, signer } = report;
  if (state === 'none') return undefined;
  const isWhole = state === 'holds' || state === 'not calculated';
  return {
    who: record?.who ?? '',
    when: record ? timeWords(record.when) : '',
    hash: record?.hash ?? '',
    key: signer ?? (record?.signature ? 'refused' : ''),
    compared: timeWords(compared),
    found: SEAL_FOUND[isWhole ? 0 : 1],
    results: resultsOf((name) => gridOf(run, name)[0]?.[0] ?? null),
  };
}

/** The results that a certificate repeats, as far as they are numbers. */
function resultsOf(value: (name: CellName) => CellValue): CertifiedSeal['results'] {
  const found = SEALED_RESULTS.flatMap((id): [SealedResult, number][] => {
    const result = value(SEALED_NAMES[id]);
    return typeof result === 'number' ? [[id, result]] : [];
  });
  return Object.fromEntries(found);
}

/** A cell of a certificate and what is to stand there. */
export interface Stamp {
  readonly at: string;
  readonly value: string | number | null;
}

/** What to write into a certificate so that it tells of the seal; empty for a certificate of an older layout. */
export function stampsFor(certificate: SheetView, seal: CertifiedSeal | undefined): Stamp[] {
  const values = stampValues(seal);
  return SEAL_STAMPS.flatMap((name): Stamp[] => {
    const at = certificate.places.get(name.toLowerCase())?.address;
    return at === undefined ? [] : [{ at, value: values[name] }];
  });
}

/** Certificates of a run sheet: those whose formulas are linked to it. A sealed one stays as it was sealed. */
export function certificatesOf(book: Book, run: string): { open: SheetView[]; sealed: SheetView[] } {
  const all = ourSheets(book).filter(
    (view) => view.identity?.kind === 'certificate' && isLinkedTo(view, run),
  );
  return { open: all.filter((view) => !isSealed(view)), sealed: all.filter(isSealed) };
}

function isLinkedTo({ sheet }: SheetView, other: string): boolean {
  return Object.values(sheet.cells).some(({ formula }) => {
    const list = formula === undefined ? [] : tokens(formula.slice(1));
    return list.some(
      ({ text }, at) => list[at + 1]?.text === '!' && sheetNamed(text) === other.toLowerCase(),
    );
  });
}

function sentenceOf(seal: CertifiedSeal | undefined): string {
  if (!seal) return SEAL_SENTENCES.none;
  return seal.found === SEAL_FOUND[0] ? SEAL_SENTENCES.sealed : SEAL_SENTENCES.broken;
}

/** The book with the certificates of a run telling of its seal. */
export function withStamps(book: Book, run: string, seal: CertifiedSeal | undefined): Book {
  const open = new Map(
    certificatesOf(book, run).open.map((view) => [view.sheet.name, stampsFor(view, seal)]),
  );
  return {
    ...book,
    sheets: book.sheets.map((sheet) => {
      const stamps = open.get(sheet.name);
      if (!stamps) return sheet;
      const cells = { ...sheet.cells };
      for (const { at, value } of stamps) cells[at] = { ...cells[at], value };
      // What the live sentence comes to with results that are as compared just now.
      const state = viewOf(sheet).places.get('sealstate')?.address;
      if (state !== undefined) cells[state] = { ...cells[state], value: sentenceOf(seal) };
      return { ...sheet, cells };
    }),
  };
}
