import { Action } from '../components/Action';
import { later } from '../components/Later';
import look from '../components/look.module.css';
import { TroubleBox } from '../components/TroubleBox';
import { ExampleCard } from '../example/ExampleCard';
import { exampleOf } from '../example/state';
import type { Store } from '../store';
import { EntryList } from './EntryList';
import { FORMS } from './entries';

const Due = later(async () => (await import('../metercheck/MyMeters')).Due);
const Sheets = later(async () => (await import('../overview/Sheets')).Sheets);

/** Where one begins: with a question in an empty workbook, else with what there is and what comes next. */
export function Home({ store }: { readonly store: Store }) {
  const { survey, trouble } = store.workbook;
  if (trouble.value && !survey.value) return <TroubleBox trouble={trouble.value} facts={store.facts} />;
  if (!survey.value) return <p class={look.quiet}>Looking at the workbook …</p>;
  const isEmpty = survey.value.sheets.length === 0;
  return (
    <>
      {isEmpty && <Questions store={store} />}
      {exampleOf(store).isOffered.value && <ExampleCard store={store} />}
      {!isEmpty && <Due store={store} />}
      {!isEmpty && <Sheets store={store} />}
    </>
  );
}

/** What a person may want to find out. */
function Questions({ store }: { readonly store: Store }) {
  return (
    <section class={look.card} aria-labelledby="questions-title">
      <h2 id="questions-title">What do you want to find out?</h2>
      <EntryList entries={FORMS.filter(({ question }) => question)} onOpen={store.open} />
      <p class={look.quiet}>
        Each makes a sheet in this workbook. For a whole purchase, begin with a template.
      </p>
      <Action onAct={() => store.open('templates')}>Begin with a template</Action>
    </section>
  );
}
