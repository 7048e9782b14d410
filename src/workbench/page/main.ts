import './page.css';
import { watchDivider } from './divider';
import { fetchMetadata, openPane } from './pane';
import { Session } from './session';
import { watchToolbar } from './toolbar';

const element = <T extends HTMLElement>(selector: string): T => document.querySelector<T>(selector)!;
const frame = element<HTMLIFrameElement>('#pane');

watchDivider(element('#divider'), element('.split'));
const session = new Session(element('#grid'), await fetchMetadata());
window.workbenchLink = session.link();
// As in Excel, each workbook has a pane that starts afresh.
watchToolbar(session, () => openPane(frame));
await openPane(frame);
