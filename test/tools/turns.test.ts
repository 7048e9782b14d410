import { existsSync } from 'node:fs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { SECONDS } from './seconds.ts';
import { filesOfOtherTurns, isInTurn, TURNS, turnAsked } from './turns.ts';

const ALL = Array.from({ length: TURNS }, (_, i) => i + 1);

describe('turns of the suite', () => {
  it('know the files that they share out', () => {
    expect(Object.keys(SECONDS).filter((file) => !existsSync(file))).toEqual([]);
  });

  it('take every file that is taken whole once, or always, and are about as long as each other', () => {
    const left = ALL.map(filesOfOtherTurns);
    const whole = [...new Set(left.flat())];
    expect(whole.length).toBeGreaterThan(TURNS);
    for (const file of whole)
      expect(
        left.filter((files) => !files.includes(file)),
        file,
      ).toHaveLength(1);
    const seconds = left.map((files) =>
      whole.filter((file) => !files.includes(file)).reduce((sum, file) => sum + SECONDS[file]!, 0),
    );
    expect(Math.max(...seconds) / Math.min(...seconds)).toBeLessThan(1.25);
  });

  it('take every test once, or always', () => {
    const whole = new Set(ALL.flatMap(filesOfOtherTurns));
    const turnsOf = (file: string, position: number) => ALL.filter((turn) => isInTurn(file, position, turn));
    for (const file of Object.keys(SECONDS)) {
      const always = whole.has(file) || file === 'test/e2e/mainjob.test.ts';
      for (let position = 0; position < 2 * TURNS; position++)
        expect(turnsOf(file, position), `${file} ${position}`).toHaveLength(always ? TURNS : 1);
    }
    expect(turnsOf('test/metrology/gum.test.ts', 7)).toEqual(ALL);
  });
});

describe('the turn that is asked for', () => {
  afterEach(() => {
    vi.unstubAllEnvs();
  });

  it('is none unless one is: everything is taken', () => {
    vi.stubEnv('TURN', undefined);
    expect([turnAsked(), turnAsked('all')]).toEqual([undefined, undefined]);
    expect(filesOfOtherTurns(undefined)).toEqual([]);
  });

  it('follows from the commit, and is the first where there is none', () => {
    expect(ALL).toContain(turnAsked('commit'));
    // Without git, as sources come in an archive.
    vi.stubEnv('PATH', '');
    expect(turnAsked('commit')).toBe(1);
  });

  it.each(['0', '6', '1.5', '', 'first'])('is refused in words: “%s”', (asked) => {
    expect(() => turnAsked(asked)).toThrow(
      `TURN is "all", "commit" or a number from 1 to ${TURNS}; it is "${asked}".`,
    );
  });

  it('is a number too', () => {
    expect(ALL.map((turn) => turnAsked(String(turn)))).toEqual(ALL);
  });
});
