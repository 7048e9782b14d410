import { defineConfig } from 'vitest/config';

/** `npm run bench`: one file after the other, so that none waits for another; each prints its figures. */
export default defineConfig({
  root: `${import.meta.dirname}/../..`,
  test: {
    include: ['test/bench/**/*.bench.ts'],
    globalSetup: 'test/e2e/server.ts',
    fileParallelism: false,
    testTimeout: 300_000,
    hookTimeout: 300_000,
    disableConsoleIntercept: true,
  },
});
