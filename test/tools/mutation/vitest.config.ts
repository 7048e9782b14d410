import { defineConfig } from 'vitest/config';

/**
 * The tests of the rooms that are mutated, and of the functions that hand their results and refusals to a cell. What
 * they ask other programs is not asked for each mutant.
 */
export default defineConfig({
  test: {
    include: [
      'test/{photometry,metrology,procurement}/**/*.test.ts',
      'test/functions/{badinput,messages,uncertaintyinput,values}.test.ts',
    ],
    testTimeout: 60_000,
  },
});
