import type { Store } from './type';

/** Puts a form back to how it was. */
export type Restore = () => void;

type Drafting = (store: Store) => { snapshot(): Restore };

const newRun = async (): Promise<Drafting> => {
  const { newRunOf } = await import('../run/newrun');
  return (store) => newRunOf(store).form;
};

/** Whose fields a form shows, each fetched when it is first opened. Forms that are not listed have nothing to lose. */
const DRAFTS: Readonly<Record<string, readonly (() => Promise<Drafting>)[]>> = {
  run: [newRun],
  metercheck: [newRun],
  spot: [newRun, async () => (await import('../spot/state')).spotOf],
  batch: [newRun, async () => (await import('../batch/state')).batchOf],
  need: [async () => (await import('../need/state')).needOf],
  offers: [async () => (await import('../offers/state')).offersOf],
  lot: [async () => (await import('../accept/state')).acceptOf],
  ageing: [async () => (await import('../ageing/state')).ageingOf],
};

/** How a form stands when it is opened, so that cancelling brings it back. Only leaving keeps what was typed. */
export async function snapshotOf(store: Store, page: string): Promise<Restore | undefined> {
  const drafts = await Promise.all((DRAFTS[page] ?? []).map((fetched) => fetched()));
  if (drafts.length === 0) return undefined;
  const restores = drafts.map((of) => of(store).snapshot());
  return () => {
    for (const restore of restores) restore();
  };
}
