import type { Reporter, TestCase } from 'vitest/node';

/** Ends a run with one plain line, `412 passed, 0 failed`, that a person or a script can look for. */
export default class Closing implements Reporter {
  #passed = 0;
  #failed = 0;

  onTestCaseResult(test: TestCase): void {
    const { state } = test.result();
    if (state === 'passed') this.#passed++;
    if (state === 'failed') this.#failed++;
  }

  onTestRunEnd(modules: readonly { errors(): readonly unknown[] }[], unhandled: readonly unknown[]): void {
    // A file that does not load holds tests that nobody counted; it and a stray exception are failures too.
    const broken = modules.filter((module) => module.errors().length > 0).length + unhandled.length;
    // Vitest's own summary is printed after this hook unless it is put off.
    setImmediate(() => console.log(`\n${this.#passed} passed, ${this.#failed + broken} failed`));
  }
}
