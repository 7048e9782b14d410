import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { RegisterLine } from './lines';
import { readWorkbook, type Task } from './workbook';

/** More at once do not read faster: the disk and the memory are shared. */
const MOST = 8;
/** A worker's share of memory, MB; a workbook of 16 MB, the largest that is read, needs less. */
const HEAP_MB = 1024;
/** Few workbooks are read sooner than workers have begun. */
const FEW = 8;

/**
 * Reads workbooks, some at a time, each by a worker of its own; gives what each says as soon as it is known. A worker
 * that dies over a workbook takes no other with it.
 *
 * @param program the bundled program, which is its own worker; without it they are read one after another
 */
export async function readAll(
  tasks: readonly Task[],
  program: URL | undefined,
  each: (task: Task, lines: readonly RegisterLine[]) => Promise<void>,
  failed: (task: Task, why: string) => readonly RegisterLine[],
): Promise<void> {
  if (!program || tasks.length < FEW) {
    for (const task of tasks) await each(task, await readWorkbook(task));
    return;
  }
  let next = 0;
  // What is told is told one after another, though it comes from several.
  let told: Promise<void> = Promise.resolve();
  const tell = (task: Task, lines: readonly RegisterLine[]) => {
    told = told.then(() => each(task, lines));
    return told;
  };
  const work = async () => {
    let worker: Worker | undefined;
    for (let task = tasks[next++]; task; task = tasks[next++]) {
      worker ??= new Worker(program, { resourceLimits: { maxOldGenerationSizeMb: HEAP_MB } });
      const answer = await ask(worker, task);
      if (answer.ok) await tell(task, answer.lines);
      else {
        worker = undefined;
        await tell(task, failed(task, answer.why));
      }
    }
    await worker?.terminate();
  };
  const count = Math.min(MOST, availableParallelism(), tasks.length);
  await Promise.all(Array.from({ length: count }, work));
}

type Answer = { ok: true; lines: RegisterLine[] } | { ok: false; why: string };

function ask(worker: Worker, task: Task): Promise<Answer> {
  return new Promise((resolve) => {
    const end = (answer: Answer) => {
      worker.removeAllListeners();
      resolve(answer);
    };
    worker.once('message', (lines: RegisterLine[]) => end({ ok: true, lines }));
    worker.once('error', ({ message }) => end({ ok: false, why: `It could not be read: ${message}.` }));
    worker.once('exit', () => end({ ok: false, why: 'It could not be read: the worker ended.' }));
    worker.postMessage(task);
  });
}
