import './page.css';
import { watchDivider } from './divider';
import { takeSecurePosts } from './host/plainhttp';
import { fetchMetadata, openPane, startPane } from './pane';
import { Session } from './session';
import { watchToolbar } from './toolbar';

const element = <T extends HTMLElement>(selector: string): T => document.querySelector<T>(selector)!;

declare global {
  interface Window {
    /** For tests: batches on their way, and a further pane. */
    workbench?: {
      readonly batches: Session['batches'];
      startPane(frame: HTMLIFrameElement, query?: string): void;
    };
  }
}

takeSecurePosts();
watchDivider(element('#divider'), element('.split'));
const session = new Session(element('#grid'), await fetchMetadata());
window.workbench = {
  batches: session.batches,
  startPane: (frame, query) => startPane(session, frame, query),
};
// As in Excel, each workbook has a pane that starts afresh.
watchToolbar(session, () => openPane(session));
await openPane(session);
