import './page.css';
import { watchDivider } from './divider';
import { fetchMetadata, openPane } from './pane';
import { Session } from './session';

const element = (id: string): HTMLElement => document.querySelector<HTMLElement>(`#${id}`)!;

watchDivider(element('divider'), document.querySelector<HTMLElement>('.split')!);
const session = new Session(element('grid'), await fetchMetadata());
window.lightWorkbench = session.link(Promise.resolve());
await openPane(document.querySelector<HTMLIFrameElement>('#pane')!);
