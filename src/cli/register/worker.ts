import { type MessagePort, parentPort } from 'node:worker_threads';
import { readWorkbook, type Task } from './workbook';

/** Whether this is a worker of the register, which then answers each workbook it is handed. */
export function serveAsWorker(port: MessagePort | null = parentPort): boolean {
  if (!port) return false;
  port.on('message', (task: Task) => {
    void readWorkbook(task).then((lines) => port.postMessage(lines));
  });
  return true;
}
