import './page.css';
import { watchDivider } from './divider';
import { takeSecurePosts } from './host/plainhttp';
import { clearNotice } from './notice';
import { fetchMetadata, leavePane, openPane, startPane } from './pane';
import { Session } from './session';
import { watchToolbar } from './toolbar';

const element = <T extends HTMLElement>(selector: string): T => document.querySelector<T>(selector)!;

declare global {
  interface Window {
    /** For tests: batches on their way, a further pane, and a page that begins again without being loaded again. */
    workbench?: {
      readonly batches: Session['batches'];
      startPane(frame: HTMLIFrameElement, query?: string): void;
      leave(): void;
      begin(): Promise<void>;
    };
  }
}

takeSecurePosts();
watchDivider(element('#divider'), element('.split'));
const metadata = await fetchMetadata();
const start = () => new Session(element('#grid'), metadata);
let session = start();
window.workbench = {
  get batches() {
    return session.batches;
  },
  startPane: (frame, query) => startPane(session, frame, query),
  leave: () => {
    leavePane(session);
    session.end();
    element('#grid').replaceChildren();
    element('#hint').textContent = '';
    clearNotice();
  },
  begin: () => {
    session = start();
    return openPane(session);
  },
};
// As in Excel, each workbook has a pane that starts afresh.
watchToolbar(
  () => session,
  () => openPane(session),
);
await openPane(session);
