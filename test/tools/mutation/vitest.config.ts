import { defineConfig } from 'vitest/config';

/**
 * The tests of the rooms that are mutated, and of the functions that hand their results and refusals to a cell. What
 * they ask other programs is not asked for each mutant. `ROOM=photometry` takes the tests of one room only: a part is
 * sooner done, and what the tests of other rooms notice is not counted.
 */
const rooms = process.env.ROOM ? [process.env.ROOM] : ['photometry', 'metrology', 'procurement'];

export default defineConfig({
  test: {
    include: [
      ...rooms.map((room) => `test/${room}/**/*.test.ts`),
      'test/functions/{badinput,messages,uncertaintyinput,values}.test.ts',
    ],
    testTimeout: 60_000,
  },
});
