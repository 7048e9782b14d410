import type { CaptureStore } from '../store';
import { BeforeReading } from './BeforeReading';
import { Cautious } from './Cautious';
import look from './capture.module.css';
import { Done } from './Done';
import { Head } from './Head';
import { Mirror } from './Mirror';
import { Paused } from './Paused';
import { Reading } from './Reading';
import own from './Window.module.css';

export interface CaptureWindowProps {
  readonly store: CaptureStore;
  /** The pane has a main part already, and this is in it. */
  readonly isInPane?: boolean;
}

/** Everything that guided capture shows, in a window of its own or inside the pane. */
export function CaptureWindow({ store, isInPane = false }: CaptureWindowProps) {
  const Main = isInPane ? 'div' : 'main';
  const stage = store.stage.value;
  const isMirrored = store.parts.settings.now.value.screen === 'mirrored' && stage === 'reading';
  return (
    <div
      class={isMirrored ? `${look.capture} ${look.mirrored}` : look.capture}
      data-mirrored={isMirrored ? '' : undefined}
    >
      <p class={look.spoken} role="status">
        {store.said.value}
      </p>
      {isMirrored ? (
        <Mirror store={store} />
      ) : (
        <>
          <Head store={store} />
          <Main class={look.body}>
            <Stage store={store} />
          </Main>
        </>
      )}
    </div>
  );
}

function Stage({ store }: { readonly store: CaptureStore }) {
  switch (store.stage.value) {
    case 'connecting':
      return <p aria-busy="true">Waiting for the pane …</p>;
    case 'no-task':
      return <p class={look.remark}>{store.why.value}</p>;
    case 'before':
      return (
        <div class={own.beginning}>
          <Cautious />
          <BeforeReading store={store} />
        </div>
      );
    case 'reading':
      return <Reading store={store} />;
    case 'paused':
      return <Paused store={store} />;
    case 'done':
      return <Done store={store} />;
  }
}
