import { Boundary } from './components/Boundary';
import { TroubleBox } from './components/TroubleBox';
import { PAGES } from './pages/pages';
import type { Store } from './store';

/** The whole pane. */
export function App({ store }: { readonly store: Store }) {
  const { troubles, facts } = store;
  const page = PAGES.find(({ id }) => id === store.page.value) ?? PAGES[0]!;
  const trouble = troubles.trouble.value;
  return (
    <>
      <header>
        <h1>Light Output Workbook</h1>
        <nav aria-label="Steps">
          <ul>
            {PAGES.map(({ id, title }) => (
              <li key={id}>
                <button
                  type="button"
                  aria-current={id === page.id ? 'page' : undefined}
                  onClick={() => store.open(id)}
                >
                  {title}
                </button>
              </li>
            ))}
          </ul>
        </nav>
        <p class="busy" role="status">
          {troubles.busy.value && `${troubles.busy.value} \u2026`}
        </p>
      </header>
      {trouble && <TroubleBox trouble={trouble} facts={facts} onDismiss={troubles.dismiss} />}
      <main>
        <Boundary key={page.id} facts={facts}>
          <page.Body store={store} />
        </Boundary>
      </main>
    </>
  );
}
