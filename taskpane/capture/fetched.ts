import { type ReadonlySignal, signal } from '@preact/signals';
import { perStore } from '../store/perstore';
import type { Store } from '../store/type';
import type { CaptureService } from './service';

/** Guided capture. It is fetched after the first paint, and at every start: readings may wait from the time before. */
interface Capture {
  readonly service: ReadonlySignal<CaptureService | undefined>;
  start(): Promise<void>;
}

export const captureOf = perStore((store: Store): Capture => {
  const { host, workbook, troubles, captureOptions, log, onStop } = store;
  const service = signal<CaptureService | undefined>(undefined);
  let isStopped = false;
  let unlog = () => {};
  onStop(() => {
    isStopped = true;
    unlog();
    service.peek()?.stop();
  });
  return {
    service,
    start: async () => {
      const [{ createCaptureService }, { logSessions }] = await Promise.all([
        import('./service'),
        import('./session'),
      ]);
      if (isStopped) return;
      service.value = createCaptureService(host, workbook, troubles, captureOptions);
      unlog = logSessions(service.value, log);
      service.value.start();
    },
  };
});
