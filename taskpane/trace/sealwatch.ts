import { effect, type ReadonlySignal, signal } from '@preact/signals';
import { type SealReport, verify } from '../../src/audit/seal/verify';
import { HostError } from '../../src/excel/host';
import { brokenSealsOf } from '../overview/brokenseals';
import { perStore } from '../store/perstore';
import { RETRY_MS } from '../store/workbook';
import { type Asking, askedBook, askingFor } from './auditedbook';
import { keysOf } from './keys';

/** The seal of the sheet in front, compared without being asked. */
export interface SealWatch {
  /** What the last comparison came to; undefined before the first, and where the sheet in front is not sealed. */
  readonly report: ReadonlySignal<SealReport | undefined>;
  /** Why it could not be compared. */
  readonly trouble: ReadonlySignal<string>;
  /** Compares when a sealed sheet comes to the front and whenever it changes, until told to stop. */
  follow(): () => void;
}

export const sealWatchOf = perStore((store): SealWatch => {
  const { host, workbook } = store;
  const report = signal<SealReport | undefined>(undefined);
  const trouble = signal('');
  /** What to ask for is worked out once: a change of layout or of links breaks the seal by itself. */
  let asking: { readonly key: string; readonly asked: Asking } | undefined;
  let shown: string | undefined;
  let isUnderWay = false;
  let isWanted = false;
  let retrying: ReturnType<typeof setTimeout> | undefined;

  async function compare(sheet: string, key: string): Promise<void> {
    const asked = asking?.key === key ? asking.asked : await askingFor(host, [sheet]);
    asking = { key, asked };
    const book = await askedBook(host, asked);
    const expectedKey = keysOf(store).expectedKey();
    const found = await verify(book, sheet, {
      subtle: crypto.subtle,
      ...(expectedKey ? { expectedKey } : {}),
    });
    if (shown !== key) return;
    report.value = found;
    brokenSealsOf(store).tell(found);
    trouble.value = '';
  }

  /** One comparison at a time; changes meanwhile are one more. */
  async function compareSoon(sheet: string, key: string): Promise<void> {
    isWanted = true;
    clearTimeout(retrying);
    if (isUnderWay) return;
    isUnderWay = true;
    try {
      while (isWanted && shown === key) {
        isWanted = false;
        await compare(sheet, key);
      }
    } catch (error) {
      const isPassing =
        error instanceof HostError && (error.trouble === 'editing' || error.trouble === 'busy');
      if (shown === key && isPassing) retrying = setTimeout(() => void compareSoon(sheet, key), RETRY_MS);
      else if (shown === key) trouble.value = error instanceof Error ? error.message : String(error);
    } finally {
      isUnderWay = false;
    }
  }

  function look(): void {
    const survey = workbook.survey.value;
    const front = survey?.sheets.find(({ sheet, isSealed }) => isSealed && sheet === survey.active);
    const key = front && `${front.id} ${front.sheet}`;
    const isOther = key !== shown;
    shown = key;
    if (isOther) {
      report.value = undefined;
      trouble.value = '';
      asking = undefined;
    }
    const touched = workbook.touched();
    if (front && (isOther || touched === undefined || touched.has(front.sheet)))
      void compareSoon(front.sheet, key!);
  }

  return {
    report,
    trouble,
    follow: () => {
      shown = undefined;
      const end = effect(look);
      return () => {
        end();
        shown = undefined;
        clearTimeout(retrying);
      };
    },
  };
});
