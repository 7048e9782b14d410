import { joinOpener } from '../../src/excel/childwindow';
import { STORAGE_MARK } from '../../src/excel/selfcheck/page';
import { browserShelf } from '../capture/shelf';

/* The window of the self-check: tells its opener what it finds in its storage, and nothing else. */
void joinOpener(() => undefined).then(({ say }) => say(browserShelf()?.getItem(STORAGE_MARK) ?? ''));
