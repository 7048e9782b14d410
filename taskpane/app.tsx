import own from './app.module.css';
import { Boundary } from './components/Boundary';
import { Busy } from './components/Busy';
import { later } from './components/Later';
import look from './components/look.module.css';
import { TroubleBox } from './components/TroubleBox';
import { exampleOf } from './example/state';
import { PAGES, PLACES } from './pages/pages';
import type { Store } from './store';

const SealNotice = later(async () => (await import('./trace/SealNotice')).SealNotice);

const Crumb = later(async () => (await import('./pages/Crumb')).Crumb);

/** The whole pane. */
export function App({ store }: { readonly store: Store }) {
  const { troubles, facts } = store;
  const page = PAGES.find(({ id }) => id === store.page.value) ?? PAGES[0]!;
  const trouble = troubles.trouble.value;
  const above = PLACES.find(({ id }) => id === page.under);
  return (
    <>
      <header class={own.head}>
        <h1 class={look.spoken}>Light Output Workbook</h1>
        <nav class={own.places} aria-label="Places">
          {PLACES.map(({ id, title }) => (
            <button
              key={id}
              type="button"
              data-title={title}
              aria-current={id === page.id ? 'page' : id === page.under ? 'true' : undefined}
              onClick={() => store.open(id)}
            >
              {title}
            </button>
          ))}
        </nav>
        <div class={own.below}>
          <Busy doing={troubles.busy.value} />
          <button type="button" class={look.link} onClick={() => store.open('cautions')}>
            Cautions
          </button>
        </div>
      </header>
      {trouble && <TroubleBox isOver trouble={trouble} facts={facts} onDismiss={troubles.dismiss} />}
      {store.workbook.sealedFront.value !== undefined && <SealNotice store={store} />}
      <main class={own.page}>
        {exampleOf(store).isThere.value && (
          <p class={own.invented}>Example sheets in this workbook: their data are invented.</p>
        )}
        {above && <Crumb key={page.id} store={store} above={above} page={page} />}
        <Boundary key={page.id} facts={facts}>
          <page.Body store={store} />
        </Boundary>
      </main>
    </>
  );
}
