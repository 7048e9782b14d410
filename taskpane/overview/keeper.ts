import { type ReadonlySignal, signal } from '@preact/signals';
import { HostError, type KnownSheet, type Survey } from '../../src/excel/host';
import { overviewPlan } from '../../src/sheets/overview';
import { perStore } from '../store/perstore';
import { type Trouble, troubleOf } from '../store/trouble';
import type { Store } from '../store/type';
import { goneOf, isCurrent, type Row, rowsOn } from './rows';
import { begin, end, leftBehind } from './unfinished';
import { listedSheet, WANTED } from './wanted';

/** How often an overview that was broken off is written again for the same sheets. */
const TRIES = 3;

/** Keeps overview sheets true to the sheets there are, whichever step is open. */
export interface Keeper {
  /** Why an overview could not be brought up to date; it is tried again at the next change. */
  readonly trouble: ReadonlySignal<Trouble | undefined>;
  /** Looks whether overview sheets name what is there, and writes those anew that do not. */
  keep(survey: Survey): Promise<void>;
  /** Writes an overview sheet anew; without what is gone if so wished. */
  renew(sheet: string, forget?: boolean): Promise<void>;
}

export const keeperOf = perStore(createKeeper);

function createKeeper({ host }: Store): Keeper {
  const trouble = signal<Trouble | undefined>(undefined);
  /** What was found true to an overview sheet last: most changes are none of sheets. */
  const known = new Map<string, string>();
  /** What overviews listed before they were begun to be written anew: broken off, the sheet may not tell it any more. */
  const unfinished = new Map<string, { rows: readonly Row[]; tries: number }>();
  /** Overviews that were looked at for what another pane has left. */
  const looked = new Set<string>();
  let current: Promise<void> | undefined;
  let next: Survey | undefined;

  async function renewOne(overview: KnownSheet, survey: Survey, forget: boolean): Promise<void> {
    const key = keyOf(overview);
    // A pane that was closed in the middle has left word, once.
    const left = looked.has(key) ? undefined : await leftBehind(host, overview.sheet);
    if (left) unfinished.set(overview.id, { rows: left, tries: 0 });
    looked.add(key);
    const begun = unfinished.get(overview.id);
    const listed = rowsOn(await host.read(overview.sheet));
    const isListed = (row: Row) => listed.some(({ sheet, id }) => sheet === row.sheet && id === row.id);
    const before = [...listed, ...(begun?.rows ?? []).filter((row) => !isListed(row))];
    if (!forget && !begun && isCurrent(before, survey.sheets)) return;
    const readings = await host.readSome(WANTED);
    const gone = forget ? [] : goneOf(before, readings);
    unfinished.set(overview.id, { rows: before, tries: (begun?.tries ?? 0) + 1 });
    if (gone.length > 0 && !left) await begin(host, overview.sheet, before);
    await host.rewrite(
      overview.sheet,
      overviewPlan({ sheets: readings.map(listedSheet), gone }, overview.id),
    );
    unfinished.delete(overview.id);
    if (gone.length > 0 || left) await end(host, overview.sheet);
  }

  async function keepOnce(survey: Survey): Promise<void> {
    const sheets = survey.sheets.map(({ sheet, id, isSealed }) => [sheet, id, isSealed]);
    const signature = JSON.stringify(sheets);
    for (const overview of survey.sheets) {
      if (overview.kind !== 'overview' || overview.isSealed || known.get(keyOf(overview)) === signature)
        continue;
      try {
        await renewOne(overview, survey, false);
        known.set(keyOf(overview), signature);
        trouble.value = undefined;
      } catch (error) {
        // Somebody types into a cell: the workbook looks again by itself when the host is free.
        if (error instanceof HostError && (error.trouble === 'editing' || error.trouble === 'busy')) return;
        trouble.value = troubleOf(error, 'Bringing the overview up to date');
        // Not again until sheets come or go: what is refused is refused at every key.
        if ((unfinished.get(overview.id)?.tries ?? TRIES) >= TRIES) known.set(keyOf(overview), signature);
      }
    }
  }

  return {
    trouble,
    keep: async (survey) => {
      next = survey;
      if (current) return current;
      current = (async () => {
        while (next) {
          const now = next;
          next = undefined;
          await keepOnce(now);
        }
      })().finally(() => {
        current = undefined;
      });
      return current;
    },
    renew: async (sheet, forget = false) => {
      const survey = await host.survey();
      const overview = survey.sheets.find((one) => one.sheet === sheet && one.kind === 'overview');
      if (!overview)
        throw new HostError('missing', `The overview “${sheet}” is not there any more.`, 'Build a new one.');
      await renewOne(overview, survey, forget);
    },
  };
}

/** A copy of an overview has its mark too, but not its name. */
function keyOf({ sheet, id }: KnownSheet): string {
  return `${id} ${sheet}`;
}
