import type { Reporter, TestCase, TestModule } from 'vitest/node';
import { filesOfOtherTurns, TURNS, turnAsked } from './turns.ts';

/**
 * Ends a run with one plain line, `412 passed, 0 failed`, that a person or a script can look for. Before it stands what
 * was left to other turns.
 */
export default class Closing implements Reporter {
  #passed = 0;
  #failed = 0;

  onTestCaseResult(test: TestCase): void {
    const { state } = test.result();
    if (state === 'passed') this.#passed++;
    if (state === 'failed') this.#failed++;
  }

  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly unknown[]): void {
    // A file that does not load holds tests that nobody counted; it and a stray exception are failures too.
    const broken = modules.filter((module) => module.errors().length > 0).length + unhandled.length;
    const turn = turnAsked();
    const others = filesOfOtherTurns(turn).length;
    // They were collected, and no word came of them.
    const left = modules.reduce((sum, { children }) => sum + [...children.allTests('pending')].length, 0);
    const taken = `Turn ${turn} of ${TURNS}: ${others} long files and ${left} tests of others were left out; TURN=all takes everything.`;
    // Vitest's own summary is printed after this hook unless it is put off.
    setImmediate(() => {
      if (turn !== undefined) console.log(`\n${taken}`);
      console.log(`\n${this.#passed} passed, ${this.#failed + broken} failed`);
    });
  }
}
