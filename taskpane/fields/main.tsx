import './page.css';
import { render } from 'preact';
import { parseHash } from './address';
import { afterPaint, serve } from './link';
import { openChannel } from './protocol';
import { createFieldsStore } from './store';
import { Window } from './Window';

/** The test fields: a window of their own for the projector's screen. */
const store = createFieldsStore();

const follow = () => {
  const { field, marker } = parseHash(location.hash);
  if (field) store.show(field, marker);
};
follow();
addEventListener('hashchange', follow);

render(<Window store={store} />, document.getElementById('fields')!);

const { pair } = parseHash(location.hash);
const stop = pair ? serve(openChannel(pair), store, afterPaint, () => close()) : undefined;
addEventListener('pagehide', () => {
  stop?.();
  store.stop();
});
