import { type ReadonlySignal, signal } from '@preact/signals';
import { expectedOf } from '../../src/audit/expected';
import { reopen, seal } from '../../src/audit/seal/seal';
import { type SealReport, verify } from '../../src/audit/seal/verify';
import { viewOf } from '../../src/audit/view';
import { HostError } from '../../src/excel/host';
import type { Book } from '../../src/sheets/book';
import { brokenSealsOf } from '../overview/brokenseals';
import { perStore } from '../store/perstore';
import { settledSheet } from '../store/settled';
import { auditedBook } from './auditedbook';
import { checkingOf } from './checking';
import { keysOf } from './keys';
import { hasPaper, writeOnPapers } from './onpaper';

/** Sealing the sheet in front, comparing it with its seal, and opening it again. */
export interface Sealing {
  readonly who: ReadonlySignal<string>;
  readonly why: ReadonlySignal<string>;
  readonly report: ReadonlySignal<SealReport | undefined>;
  readonly said: ReadonlySignal<string>;
  typeWho(text: string): void;
  typeWhy(text: string): void;
  seal(): Promise<void>;
  verify(): Promise<void>;
  reopen(): Promise<void>;
  /** Whether a certificate is linked to the sheet compared last. */
  readonly hasPaper: ReadonlySignal<boolean>;
  /** Writes what the comparison came to on the certificates of the run. */
  writeOnPaper(): Promise<void>;
}

/** How often a seal is made when others seal at the same time. */
const TRIES = 3;

/** What an action with a seal came to. */
interface Answer {
  readonly words: string;
  readonly found?: SealReport;
}

export const sealingOf = perStore((store): Sealing => {
  const { host, workbook, troubles, author, log, makeId } = store;
  const { who } = author;
  const { front, frontWords } = checkingOf(store);
  const keys = keysOf(store);
  const why = signal('');
  const report = signal<SealReport | undefined>(undefined);
  const said = signal('');
  const isOnPaper = signal(false);

  /** Does something with the sheet in front. What it found is shown once all of it is done. */
  async function withFront(doing: string, action: (sheet: string) => Promise<Answer>): Promise<void> {
    said.value = '';
    report.value = undefined;
    isOnPaper.value = false;
    await workbook.look();
    const sheet = front.value;
    if (sheet === undefined) {
      said.value = frontWords.value;
      return;
    }
    const attempt = await troubles.attempt(doing, () => action(sheet));
    if (!attempt.ok) return;
    report.value = attempt.value.found;
    if (attempt.value.found) brokenSealsOf(store).tell(attempt.value.found);
    said.value = attempt.value.words;
  }

  /** Certificates say that a seal was made or taken off without being asked: else they would say what is no longer so. */
  async function told(words: string, found: SealReport): Promise<Answer> {
    const papers = await writeOnPapers(host, found, author.moment().when);
    return { words: [words, papers].filter(Boolean).join(' '), found };
  }

  /** Compares what the program holds now, not what was meant to be written. */
  async function look(sheet: string): Promise<SealReport> {
    const expectedKey = keys.expectedKey();
    return verify(await readable(sheet), sheet, {
      subtle: crypto.subtle,
      ...(expectedKey ? { expectedKey } : {}),
    });
  }

  /** Input rules belong to a seal and can be asked for only where the layout is known. */
  async function readable(sheet: string): Promise<Book> {
    const book = await auditedBook(host, [sheet]);
    const expected = book.sheets[0] && expectedOf(viewOf(book.sheets[0]), book);
    if (expected?.known) return book;
    throw new HostError(
      'refused',
      `The seal of \u201c${sheet}\u201d cannot be made or compared here: its input rules cannot be read. ${expected?.why ?? ''}`,
      'Save the workbook and use the command line (light seal, light verify), which reads the file itself.',
    );
  }

  /** Seals, and does it again where somebody else sealed another sheet in the same moment. */
  async function sealAgain(sheet: string, left: number): Promise<Answer> {
    const own = await readable(sheet);
    // A copied sheet gets a mark of its own, so the others are looked at too.
    const others = (await host.book()).sheets.filter(({ name }) => name !== sheet);
    const signer = keys.signer();
    const answer = await seal({ ...own, sheets: [...own.sheets, ...others] }, sheet, {
      ...author.moment(),
      subtle: crypto.subtle,
      newId: makeId,
      ...(signer ? { signer } : {}),
    });
    if (!answer.ok) return { words: `Nothing was sealed: ${answer.why}` };
    try {
      await host.editNames(answer.edits);
    } catch (error) {
      // Somebody else sealed between our look and our write: the workbook remembers theirs by now.
      const isOther = error instanceof HostError && error.detail === 'names changed';
      if (isOther && left > 1) return sealAgain(sheet, left - 1);
      throw error;
    }
    const found = await look(sheet);
    // Theirs came after ours, and the workbook forgot ours.
    if (found.isForgotten && found.differences.length === 0 && left > 1) return sealAgain(sheet, left - 1);
    void log.note('sealed', sheet, `Seal ${answer.record.sequence}, SHA-256 ${answer.record.hash}`);
    if (signer)
      void log.note('signed', sheet, `Seal ${answer.record.sequence}, with the key ${keys.mine.peek()}`);
    return told(`Sealed \u201c${sheet}\u201d${signer ? ' and signed the seal' : ''}.`, found);
  }

  return {
    hasPaper: isOnPaper,
    writeOnPaper: async () => {
      const found = report.peek();
      if (!found) return;
      const attempt = await troubles.attempt('Writing on the certificate', () =>
        writeOnPapers(host, found, author.moment().when),
      );
      if (!attempt.ok) return;
      isOnPaper.value = false;
      said.value = attempt.value;
    },
    who,
    why,
    report,
    said,
    typeWho: author.type,
    typeWhy: (text) => {
      why.value = text;
    },
    seal: () =>
      withFront('Sealing', async (sheet) => {
        if (who.value.trim() === '') return { words: 'Nothing was sealed: say who seals.' };
        await settledSheet(host, sheet);
        return sealAgain(sheet, TRIES);
      }),
    verify: () =>
      withFront('Comparing with the seal', async (sheet) => {
        const found = await look(sheet);
        isOnPaper.value = await hasPaper(host, sheet);
        return { words: `Compared \u201c${sheet}\u201d, as it stood then.`, found };
      }),
    reopen: () =>
      withFront('Opening the seal', async (sheet) => {
        const reason = why.value.trim();
        const { who: name, when } = author.moment();
        if (name === '' || reason === '') return { words: 'Nothing was opened: say who opens it, and why.' };
        const answer = reopen(await readable(sheet), sheet, { who: name, why: reason, when });
        if (!answer.ok) return { words: `Nothing was opened: ${answer.why}` };
        await host.editNames(answer.edits);
        void log.note('reopened', sheet, reason);
        why.value = '';
        return told(
          `\u201c${sheet}\u201d is open again; who, when and why are kept with it.`,
          await look(sheet),
        );
      }),
  };
});
