import { Boundary } from './components/Boundary';
import { Busy } from './components/Busy';
import { later } from './components/Later';
import { TroubleBox } from './components/TroubleBox';
import { PAGES, type Page } from './pages/pages';
import type { Store } from './store';

const STEPS = PAGES.filter(({ isTool }) => !isTool);
const TOOLS = PAGES.filter(({ isTool }) => isTool);

const SealNotice = later(async () => (await import('./trace/SealNotice')).SealNotice);

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
          <Links label="Steps of the job" pages={STEPS} current={page.id} onOpen={store.open} />
          <Links label="About the workbook" pages={TOOLS} current={page.id} onOpen={store.open} />
        </nav>
        {store.example.isThere.value && (
          <p class="invented">Example sheets in this workbook: their data are invented.</p>
        )}
        <Busy doing={troubles.busy.value} />
      </header>
      {trouble && <TroubleBox trouble={trouble} facts={facts} onDismiss={troubles.dismiss} />}
      {store.workbook.sealedFront.value !== undefined && <SealNotice store={store} />}
      <main>
        <Boundary key={page.id} facts={facts}>
          <page.Body store={store} />
        </Boundary>
      </main>
    </>
  );
}

interface LinksProps {
  readonly label: string;
  readonly pages: readonly Page[];
  readonly current: string;
  readonly onOpen: (id: string) => void;
}

function Links({ label, pages, current, onOpen }: LinksProps) {
  return (
    <ul aria-label={label}>
      {pages.map(({ id, title }) => (
        <li key={id}>
          <button
            type="button"
            data-title={title}
            aria-current={id === current ? 'page' : undefined}
            onClick={() => onOpen(id)}
          >
            {title}
          </button>
        </li>
      ))}
    </ul>
  );
}
