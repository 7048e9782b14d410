import { type ReadonlySignal, signal } from '@preact/signals';
import { expectedOf } from '../../src/audit/expected';
import { reopen, seal } from '../../src/audit/seal/seal';
import { type SealReport, verify } from '../../src/audit/seal/verify';
import { viewOf } from '../../src/audit/view';
import { HostError } from '../../src/excel/host';
import type { Book } from '../../src/sheets/book';
import { perStore } from '../store/perstore';
import { auditedBook } from './auditedbook';
import { checkingOf } from './checking';
import { keysOf } from './keys';

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
}

export const sealingOf = perStore((store): Sealing => {
  const { host, workbook, troubles, author, log, makeId } = store;
  const { who } = author;
  const { front, frontWords } = checkingOf(store);
  const keys = keysOf(store);
  const why = signal('');
  const report = signal<SealReport | undefined>(undefined);
  const said = signal('');

  /** Does something with the sheet in front; the answer is what there is to say. */
  async function withFront(doing: string, action: (sheet: string) => Promise<string>): Promise<void> {
    said.value = '';
    report.value = undefined;
    await workbook.look();
    const sheet = front.value;
    if (sheet === undefined) {
      said.value = frontWords.value;
      return;
    }
    const attempt = await troubles.attempt(doing, () => action(sheet));
    if (attempt.ok) said.value = attempt.value;
  }

  /** Compares what the program holds now, not what was meant to be written. */
  async function look(sheet: string): Promise<void> {
    const expectedKey = keys.expectedKey();
    report.value = await verify(await readable(sheet), sheet, {
      subtle: crypto.subtle,
      ...(expectedKey ? { expectedKey } : {}),
    });
  }

  /** Input rules belong to a seal and can be asked for only where the layout is known. */
  async function readable(sheet: string): Promise<Book> {
    const book = await auditedBook(host, [sheet]);
    const expected = book.sheets[0] && expectedOf(viewOf(book.sheets[0]));
    if (expected?.known) return book;
    throw new HostError(
      'refused',
      `The seal of \u201c${sheet}\u201d cannot be made or compared here: its input rules cannot be read. ${expected?.why ?? ''}`,
      'Save the workbook and use the command line (light seal, light verify), which reads the file itself.',
    );
  }

  return {
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
        if (who.value.trim() === '') return 'Nothing was sealed: say who seals.';
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
        if (!answer.ok) return `Nothing was sealed: ${answer.why}`;
        await host.editNames(answer.edits);
        void log.note('sealed', sheet, `Seal ${answer.record.sequence}, SHA-256 ${answer.record.hash}`);
        if (signer)
          void log.note('signed', sheet, `Seal ${answer.record.sequence}, with the key ${keys.mine.peek()}`);
        await look(sheet);
        return `Sealed \u201c${sheet}\u201d${signer ? ' and signed the seal' : ''}.`;
      }),
    verify: () =>
      withFront('Comparing with the seal', async (sheet) => {
        await look(sheet);
        return `Compared \u201c${sheet}\u201d, as it stood then.`;
      }),
    reopen: () =>
      withFront('Opening the seal', async (sheet) => {
        const reason = why.value.trim();
        const { who: name, when } = author.moment();
        if (name === '' || reason === '') return 'Nothing was opened: say who opens it, and why.';
        const answer = reopen(await readable(sheet), sheet, { who: name, why: reason, when });
        if (!answer.ok) return `Nothing was opened: ${answer.why}`;
        await host.editNames(answer.edits);
        void log.note('reopened', sheet, reason);
        why.value = '';
        await look(sheet);
        return `\u201c${sheet}\u201d is open again; who, when and why are kept with it.`;
      }),
  };
});
