import preact from '@preact/preset-vite';
import { defineConfig } from 'vitest/config';
import LongFirst, { notQuick } from './test/tools/longfirst.ts';
import { filesOfOtherTurns, turnAsked } from './test/tools/turns.ts';

/**
 * Left to itself the runner keeps one processor free, which on two is half of them. A third worker had its own modules to
 * load and compile, and took as much of the others' time as it gave.
 */
const maxWorkers = 2;

/** Test files of a worker share its modules: to load them anew for each of 200 files takes a fourth of the time. */
const isolate = false;

/**
 * Sheets and workbooks are many small objects that live on: with a nursery of 64 MB, and one thread to clear it, a worker
 * takes a sixth less of the processors.
 */
const execArgv = ['--max-semi-space-size=64', '--min-semi-space-size=64', '--single-threaded-gc'];

/** `npm run test:quick` is without what takes long, `npm run verify` takes it in turns. */
const turn = turnAsked();
const left = process.env.QUICK ? notQuick() : filesOfOtherTurns(turn);
if (turn !== undefined) process.env.TURN = String(turn);
const runner = './test/tools/inturn.ts';

/** The tests. How the pane and the workbench are built stands in src/build. */
export default defineConfig({
  test: {
    reporters: ['default', './test/tools/closing.ts'],
    sequence: { sequencer: LongFirst },
    projects: [
      {
        test: {
          name: 'node',
          include: ['test/**/*.test.ts'],
          exclude: ['test/e2e/**', 'test/manifest/**', 'test/taskpane/**', ...left],
          testTimeout: 60_000,
          hookTimeout: 60_000,
          maxWorkers,
          execArgv,
          isolate,
          runner,
        },
      },
      {
        plugins: [preact()],
        test: {
          name: 'pane',
          environment: 'jsdom',
          // Without looks a class is its bare name; that names are right is held by test/taskpane/looks.test.ts.
          css: { modules: { classNameStrategy: 'non-scoped' } },
          setupFiles: ['test/taskpane/patience.ts'],
          // XML is read by the DOM too.
          include: ['test/manifest/**/*.test.ts', 'test/taskpane/**/*.test.{ts,tsx}'],
          exclude: left,
          // axe looks at whole pages, and a machine may be busy with other tests.
          testTimeout: 60_000,
          hookTimeout: 60_000,
          maxWorkers,
          execArgv,
          isolate,
          runner,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['test/e2e/**/*.test.ts'],
          globalSetup: 'test/e2e/server.ts',
          // A busy machine takes its time; nothing is waited for so long where one is not.
          testTimeout: 300_000,
          hookTimeout: 300_000,
          expect: { poll: { timeout: 60_000 } },
          exclude: left,
          maxWorkers,
          isolate,
          runner,
        },
      },
    ],
  },
});
