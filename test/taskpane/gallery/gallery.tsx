import '../../../taskpane/tokens.css';
import '../../../taskpane/base.css';
import '../../../taskpane/components/look.module.css';
import { render } from 'preact';
import { HostError } from '../../../src/excel/host';
import { App } from '../../../taskpane/app';
import { cautionsOf } from '../../../taskpane/cautions/state';
import { newRunOf } from '../../../taskpane/run/newrun';
import { pasteOf } from '../../../taskpane/run/paste';
import { secondOpinionOf } from '../../../taskpane/simulation/state';
import { createStore, type Store } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';
import { compared, complete, halfway, sure, traceable } from '../scenes';

/*
 * The pane over workbooks that stand still: `npx vite test/taskpane/gallery`, then open `#halfway` and so on.
 * For looking at; what must hold is in the tests.
 */
const SCENES: Readonly<Record<string, () => Promise<Store>>> = {
  first: async () => opened(new FakeHost()),
  form: async () => {
    const store = await opened(new FakeHost());
    await cautionsOf(store).read();
    store.open('run');
    const { form } = newRunOf(store);
    form.type('projector', 'Reading room 3, unit B');
    form.type('length', '1,92 m');
    return store;
  },
  errors: async () => {
    const store = await opened(new FakeHost());
    await cautionsOf(store).read();
    store.open('run');
    const { form } = newRunOf(store);
    form.type('length', '100 in');
    form.type('gain', 'matt');
    form.type('ratedWhite', '50,000');
    await newRunOf(store).build();
    return store;
  },
  halfway: async () => folded(await halfway()),
  complete: async () => folded(await complete()),
  sure: async () => {
    const store = await folded(await sure());
    void secondOpinionOf(store).ask();
    return store;
  },
  home: async () => {
    const store = await opened(await compared());
    store.open('home');
    return store;
  },
  compare: async () => {
    const store = await opened(await compared());
    store.open('sheet');
    return store;
  },
  trace: async () => {
    const host = traceable();
    const store = await opened(host);
    store.open('audit');
    const [checking, sealing, tracing] = await Promise.all([
      import('../../../taskpane/trace/checking'),
      import('../../../taskpane/trace/sealing'),
      import('../../../taskpane/trace/tracing'),
    ]);
    const seal = sealing.sealingOf(store);
    seal.typeWho('A. Nobody');
    await seal.seal();
    host.put(host.active, 'AmbientReadings', [[3]]);
    host.edit(host.active, () => ({ isProtected: false }));
    await seal.verify();
    await checking.checkingOf(store).checkFront();
    await tracing.tracingOf(store).traceSelected();
    return store;
  },
  doubts: async () => {
    const store = await opened(new FakeHost());
    await cautionsOf(store).read();
    return store;
  },
  paste: async () => {
    const store = await folded(await halfway());
    pasteOf(store).type('1.234,5\t251\t1\n1 248\t260 fc\tabc\n240\tover\t');
    pasteOf(store).choose('WhiteReadings');
    return store;
  },
  trouble: async () => {
    const host = await complete();
    host.put(host.active, 'WhiteLightOutput', [[{ error: '#NAME?' }]]);
    const store = await folded(host);
    host.failNext(
      'refresh',
      new HostError(
        'editing',
        'A cell is being edited.',
        'Press Enter or Esc in the sheet, then try again.',
        'InvalidOperationInCellEditMode',
      ),
    );
    await store.refresh();
    return store;
  },
  functions: async () => {
    const store = await opened(new FakeHost());
    store.open('functions');
    return store;
  },
};

async function opened(host: FakeHost): Promise<Store> {
  const store = createStore(host, { today: '2026-11-25' });
  await store.start();
  return store;
}

async function folded(host: FakeHost): Promise<Store> {
  const store = await opened(host);
  await cautionsOf(store).read();
  store.open('sheet');
  return store;
}

const root = document.getElementById('pane')!;
const scene = SCENES[location.hash.slice(1)];
if (scene) render(<App store={await scene()} />, root);
else {
  render(
    <ul>
      {Object.keys(SCENES).map((name) => (
        <li key={name}>
          <a href={`#${name}`}>{name}</a>
        </li>
      ))}
    </ul>,
    root,
  );
}
addEventListener('hashchange', () => location.reload());
