import { defineConfig } from 'vitest/config';

const FUNCTIONS = 'test/functions/{badinput,messages,uncertaintyinput,values}.test.ts';
const of = (room: string) => `test/${room}/**/*.test.ts`;

/**
 * The tests of the rooms that are mutated, and of the functions that hand their results and refusals to a cell. What
 * they ask other programs is not asked for each mutant. `ROOM=photometry` takes the tests of that room and no others,
 * which is some ten times as fast and misses what only functions say: words of refusals, mostly.
 */
export default defineConfig({
  test: {
    include: process.env.ROOM
      ? [of(process.env.ROOM)]
      : [of('{photometry,metrology,procurement}'), FUNCTIONS],
    testTimeout: 60_000,
  },
});
