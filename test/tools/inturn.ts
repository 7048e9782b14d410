import { relative } from 'node:path';
import { type RunnerTask, type RunnerTestFile, TestRunner } from 'vitest';
import { isInTurn, turnAsked } from './turns.ts';

/** Leaves out, of long files, the tests of other turns; what only those need is not prepared either. */
export default class InTurn extends TestRunner {
  readonly #turn = turnAsked();

  onCollected(files: RunnerTestFile[]): void {
    if (this.#turn === undefined) return;
    for (const file of files) {
      let position = 0;
      const name = relative(this.config.root, file.filepath).replaceAll('\\', '/');
      const keep = (task: RunnerTask): boolean => {
        const isKept =
          task.type === 'suite'
            ? task.tasks.map(keep).includes(true)
            : task.mode !== 'skip' && isInTurn(name, position++, this.#turn ?? 0);
        if (!isKept && task.mode === 'run') task.mode = 'skip';
        return isKept;
      };
      keep(file);
    }
  }
}
