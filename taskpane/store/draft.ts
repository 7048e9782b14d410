import type { Store } from './type';

/** Puts a form back to how it was. */
export type Restore = () => void;

/**
 * How each form stands when it is opened, so that cancelling brings it back. Only leaving keeps what was typed; forms
 * that are not listed have nothing to lose.
 */
export async function snapshotOf(store: Store, page: string): Promise<Restore | undefined> {
  switch (page) {
    case 'run':
    case 'metercheck':
      return store.newRun.form.snapshot();
    case 'spot':
      return both(store.newRun.form.snapshot(), store.spot.snapshot());
    case 'batch':
      return both(store.newRun.form.snapshot(), (await import('../batch/state')).batchOf(store).snapshot());
    case 'need':
      return (await import('../need/state')).needOf(store).snapshot();
    case 'offers':
      return (await import('../offers/state')).offersOf(store).snapshot();
    case 'lot':
      return (await import('../accept/state')).acceptOf(store).snapshot();
    case 'ageing':
      return (await import('../ageing/state')).ageingOf(store).snapshot();
    default:
      return undefined;
  }
}

const both = (one: Restore, other: Restore) => () => {
  one();
  other();
};
