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
    let worker: Reader | undefined;
    for (let task = tasks[next++]; task; task = tasks[next++]) {
      worker ??= new Reader(program);
      const answer = await worker.ask(task);
      if (answer.ok) await tell(task, answer.lines);
      else {
        worker = undefined;
        await tell(task, failed(task, answer.why));
      }
    }
    await worker?.end();
  };
  const count = Math.min(MOST, availableParallelism(), tasks.length);
  await Promise.all(Array.from({ length: count }, work));
}

type Answer = { ok: true; lines: RegisterLine[] } | { ok: false; why: string };

/** A worker that is asked one thing after another. Its listeners stay: taking them off would end its messages. */
class Reader {
  private readonly worker: Worker;
  private answer: (answer: Answer) => void = () => {};

  constructor(program: URL) {
    this.worker = new Worker(program, { resourceLimits: { maxOldGenerationSizeMb: HEAP_MB } });
    this.worker.on('message', (lines: RegisterLine[]) => this.answer({ ok: true, lines }));
    this.worker.on('error', ({ message }) =>
      this.answer({ ok: false, why: `It could not be read: ${message}.` }),
    );
    this.worker.on('exit', () => this.answer({ ok: false, why: 'It could not be read: the worker ended.' }));
  }

  ask(task: Task): Promise<Answer> {
    return new Promise((resolve) => {
      this.answer = resolve;
      this.worker.postMessage(task);
    });
  }

  async end(): Promise<void> {
    await this.worker.terminate();
  }
}
