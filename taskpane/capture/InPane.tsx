import './ui/capture.module.css';
import { useEffect, useState } from 'preact/hooks';
import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { createBrowserCapture } from './create';
import type { CaptureService } from './service';
import type { CaptureStore } from './store';
import { CaptureWindow } from './ui/Window';

/** Guided capture inside the pane, where there is no window for it. */
export function InPane({ capture }: { readonly capture: CaptureService }) {
  const { prefix } = capture;
  const link = capture.local.value;
  const [inner, setInner] = useState<CaptureStore | undefined>(undefined);
  useEffect(() => {
    if (!link) return;
    const made = createBrowserCapture(link, prefix, ['by hand', 'second screen']);
    setInner(made);
    made.start();
    return () => made.stop();
  }, [link, prefix]);
  return (
    <>
      {capture.hint.value && <p class={look.notice}>{capture.hint.value}</p>}
      <Action onAct={() => capture.close()}>Back to the pane</Action>
      {inner && <CaptureWindow store={inner} isInPane />}
    </>
  );
}
