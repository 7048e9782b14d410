import { type ReadonlySignal, signal } from '@preact/signals';
import { plainCopy } from '../../src/audit/plain';
import { sheetsToVerify } from '../../src/audit/seal/lost';
import { verify } from '../../src/audit/seal/verify';
import { HostError } from '../../src/excel/host';
import { count } from '../parse/block';
import { createSaving, type Saving } from '../saving/saving';
import { perStore } from '../store/perstore';

/** A plain copy of the workbook: made, then opened beside it or saved as a file. */
export interface Copying {
  /** What the last copy has in it; undefined before one was made. */
  readonly made: ReadonlySignal<string | undefined>;
  readonly said: ReadonlySignal<string>;
  /** Whether the program can open the copy beside this workbook. */
  readonly canOpen: boolean;
  make(): Promise<void>;
  open(): Promise<void>;
  save(): void;
  readonly saving: Saving;
}

const TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
const FILE = 'plain-copy.xlsx';
const OTHERWISE =
  'Open the copy as a new workbook instead, and save it there; or save this workbook and make the copy from it by the command line: light plain IN.xlsx OUT.xlsx.';

export const copyingOf = perStore(({ host, troubles, author, log, facts }): Copying => {
  const made = signal<string | undefined>(undefined);
  const said = signal('');
  const saving = createSaving();
  let bytes: Uint8Array | undefined;

  async function copy(): Promise<string> {
    // Reading and writing files is a large part of the pane's code and wanted only now.
    const { handOver, readXlsx, XlsxError } = await import('../../src/xlsx');
    const original = await host.file();
    try {
      const book = await readXlsx(original);
      const sealed = sheetsToVerify(book);
      const reports = await Promise.all(
        sealed.map(({ sheet }) => verify(book, sheet.name, { subtle: crypto.subtle })),
      );
      const answer = plainCopy(book, author.moment(), reports);
      if (!answer.ok) throw new HostError('refused', answer.why, answer.remedy);
      bytes = await handOver(original, answer.copy);
      const results = [...answer.copy.values.values()].reduce((sum, cells) => sum + cells.length, 0);
      return `${count(results, 'result')} of functions on ${count(answer.copy.values.size, 'sheet')} stand as values in it; every plain formula calculates on.`;
    } catch (error) {
      if (error instanceof XlsxError) throw new HostError('refused', error.message, error.remedy);
      throw error;
    }
  }

  return {
    made,
    said,
    canOpen: !facts.isWorkbench,
    make: async () => {
      said.value = '';
      made.value = undefined;
      bytes = undefined;
      saving.clear();
      const attempt = await troubles.attempt('Making a plain copy', copy);
      if (!attempt.ok) return;
      made.value = attempt.value;
      void log.note('exported', '', `Plain copy. ${attempt.value}`);
    },
    open: async () => {
      const file = bytes;
      if (!file) return;
      said.value = '';
      const attempt = await troubles.attempt('Opening the copy', () => host.openWorkbook(file));
      if (attempt.ok)
        said.value = 'The copy was opened as a new workbook. Save it there under a name of its own.';
    },
    save: () => {
      if (!bytes) return;
      said.value = '';
      saving.offer({ name: FILE, type: TYPE, contents: bytes as BlobPart, otherwise: OTHERWISE });
    },
    saving,
  };
});
