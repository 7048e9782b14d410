import { Action } from '../components/Action';
import type { Store } from '../store';
import { checkingOf } from './checking';

/** The way on where the sheet in front has nothing to check or to seal. */
export function ToASheet({ store }: { readonly store: Store }) {
  const survey = store.workbook.survey.value;
  if (!survey || checkingOf(store).front.value !== undefined) return null;
  return (
    <div>
      <Action onAct={() => store.open('home')}>
        {survey.sheets.length === 0 ? 'Begin with a question' : 'Choose a sheet at Home'}
      </Action>
    </div>
  );
}
