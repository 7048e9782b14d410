import { defineConfig } from 'vitest/config';

/** The tests of the rooms that are mutated, in Node. What they ask other programs is not asked for each mutant. */
export default defineConfig({
  test: {
    include: ['test/{photometry,metrology,procurement}/**/*.test.ts'],
    testTimeout: 60_000,
  },
});
