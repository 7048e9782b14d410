import { type ReadonlySignal, signal } from '@preact/signals';
import type { Host } from '../../src/excel/host';
import type { CaptureOptions, CaptureService } from '../capture/service';
import type { Log } from './log';
import type { Troubles } from './trouble';
import type { Workbook } from './workbook';

/** Guided capture. It is fetched after the first paint, and at every start: readings may wait from the time before. */
export interface Capture {
  readonly service: ReadonlySignal<CaptureService | undefined>;
  start(): Promise<void>;
  stop(): void;
}

export function createCapture(
  host: Host,
  workbook: Workbook,
  troubles: Troubles,
  options: CaptureOptions | undefined,
  log: Log,
): Capture {
  const service = signal<CaptureService | undefined>(undefined);
  let isStopped = false;
  let unlog = () => {};
  return {
    service,
    start: async () => {
      const [{ createCaptureService }, { logSessions }] = await Promise.all([
        import('../capture/service'),
        import('../capture/session'),
      ]);
      if (isStopped) return;
      service.value = createCaptureService(host, workbook, troubles, options);
      unlog = logSessions(service.value, log);
      service.value.start();
    },
    stop: () => {
      isStopped = true;
      unlog();
      service.peek()?.stop();
    },
  };
}
