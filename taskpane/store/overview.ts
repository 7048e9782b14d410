import { effect } from '@preact/signals';
import type { Store } from './type';

/**
 * Keeps an overview sheet up to date from wherever the pane is. The code for it is fetched only where there is such
 * a sheet. While something is being built it waits, so that not every one of many new sheets writes it anew.
 */
export function followOverview(store: Store): () => void {
  const { workbook, troubles } = store;
  return effect(() => {
    const survey = workbook.survey.value;
    if (!survey || troubles.busy.value !== '') return;
    if (!survey.sheets.some(({ kind, isSealed }) => kind === 'overview' && !isSealed)) return;
    void import('../overview/keeper').then(({ keeperOf }) => keeperOf(store).keep(survey));
  });
}
