import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawSample, listFingerprint, listProblems } from '../../src/procurement/lot/draw';
import { serialKey, serialsOf as serialsIn } from '../../src/procurement/lot/serials';
import { goodOf, problemsOf } from '../photometry/outcome';

/** SHA-256 by Node's own OpenSSL: another program than the one the draw uses. */
const sha256 = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex');
const LIST = Array.from({ length: 60 }, (_, i) => `SN-${String(i + 1).padStart(4, '0')}`);
const serialsOf = (list: readonly string[], size: number, seed: string) =>
  goodOf(drawSample(list, size, seed)).drawn.map(({ serial }) => serial);
const serials = fc.uniqueArray(
  fc.string({ minLength: 1, unit: 'grapheme' }).map((text) => `${text.normalize('NFC').trim()}.`),
  { minLength: 1, maxLength: 40 },
);

describe('the draw', () => {
  it('is repeated by another program from the record alone', () => {
    const draw = goodOf(drawSample(LIST, 13, '4 2 6 1'));
    const byHand = LIST.map((serial) => ({ serial, ticket: sha256(`4 2 6 1\n${serial}`) }))
      .sort((a, b) => (a.ticket < b.ticket ? -1 : 1))
      .slice(0, 13);
    expect(draw.drawn).toEqual(byHand);
    expect(draw.listFingerprint).toBe(sha256(LIST.map((serial) => `${serial}\n`).join('')));
    expect(listFingerprint([...LIST].reverse())).toBe(draw.listFingerprint);
    expect(draw).toMatchObject({ seed: '4 2 6 1', lotSize: 60 });
    expect(draw.method).toMatch(/SHA-256/);
  });

  it('does not depend on the order of the list, nor on spaces round a serial', () => {
    fc.assert(
      fc.property(
        serials,
        fc.string({ minLength: 1 }).filter((text) => text.trim() !== ''),
        (list, seed) => {
          const size = Math.ceil(list.length / 2);
          const drawn = serialsOf(list, size, seed);
          expect(serialsOf([...list].reverse(), size, seed)).toEqual(drawn);
          expect(
            serialsOf(
              list.map((serial) => ` ${serial}\t`),
              size,
              seed,
            ),
          ).toEqual(drawn);
        },
      ),
    );
  });

  it('takes no unit twice, only units of the list, and a larger sample begins with the smaller', () => {
    fc.assert(
      fc.property(serials, fc.integer({ min: 1, max: 1e9 }), (list, seed) => {
        const all = serialsOf(list, list.length, String(seed));
        expect([...all].sort()).toEqual([...list].sort());
        for (let size = 1; size < list.length; size++)
          expect(serialsOf(list, size, String(seed))).toEqual(all.slice(0, size));
      }),
      { numRuns: 40 },
    );
  });

  it('is fair over seeds: each of 12 units is drawn about as often (χ², 11 degrees of freedom)', () => {
    const list = LIST.slice(0, 12);
    const times = new Map(list.map((serial) => [serial, 0]));
    const draws = 6000;
    for (let seed = 0; seed < draws; seed++)
      for (const serial of serialsOf(list, 3, `seed ${seed}`)) times.set(serial, times.get(serial)! + 1);
    const expected = (draws * 3) / 12;
    const variance = expected * (1 - 3 / 12);
    // Units of one draw exclude each other: the sum of squares over the variance has mean 12 and, scaled by 11 ÷ 12, is χ² with 11.
    const chi2 =
      ([...times.values()].reduce((sum, n) => sum + (n - expected) ** 2, 0) / variance) * (11 / 12);
    // 31.26 is exceeded once in 1000 (tables of χ², from memory); the seeds are fixed, so the outcome is as well.
    expect(chi2).toBeLessThan(31.26);
  });

  it('tells lists and seeds apart', () => {
    const draw = (list: readonly string[], seed: string) => goodOf(drawSample(list, 5, seed));
    expect(draw(LIST, '1').drawn).not.toEqual(draw(LIST, '2').drawn);
    expect(draw(LIST, '1').listFingerprint).not.toBe(draw(LIST.slice(1), '1').listFingerprint);
  });

  it('takes composed and decomposed letters for the same serial', () => {
    expect(serialsOf(['e\u0301-1'], 1, 'x')).toEqual(['\u00e9-1']);
    expect(problemsOf(drawSample(['e\u0301', '\u00e9'], 1, 'x'))[0]!.message).toMatch(/listed 2 times/);
  });

  it.each([
    [['A', 'B'], 3, 'x', /list holds 2 serials; 3 are to be drawn/],
    [['A', 'A', 'B', 'A'], 2, 'x', /serial "A" is listed 3 times/],
    [['A', ' '], 1, 'x', /serial in row 2 is missing/],
    [['A'], 1, '  ', /seed is missing/],
    [['A'], 0, 'x', /sample size must be a whole number of at least 1/],
    [['A'], 0.5, 'x', /sample size/],
    [[], 1, 'x', /list holds 0 serials/],
  ])('refuses %j, %d, "%s"', (list, size, seed, message) => {
    expect(problemsOf(drawSample(list, size, seed))[0]!.message).toMatch(message);
  });
});

describe('serial numbers are told apart', () => {
  it.each<[string, unknown, string]>([
    ['without blanks at the ends', ' A1 ', 'A1'],
    ['with one blank inside, as TRIM leaves it', 'A  1', 'A 1'],
    ['whichever blank it is', 'A\u00a01\t', 'A 1'],
    ['without marks that nobody sees', 'A\u200b1\ufeff', 'A1'],
    ['in composed letters', 'e\u0301-1', '\u00e9-1'],
    ['in capitals and small letters', 'a1', 'a1'],
    ['though they are numbers', 17, '17'],
    ['from what is none', null, ''],
    ['from an error', { error: '#REF!' }, ''],
  ])('%s', (_, value, key) => expect(serialKey(value)).toBe(key));

  it('in a new lot, while a draw of any time is repeated by the letters it was made from', () => {
    expect(listProblems(['A 1', 'A  1', 'B'])).toMatchObject([
      { message: 'The serial "A 1" is listed 2 times; each unit is listed once.' },
    ]);
    const { drawn } = goodOf(drawSample(['A 1', 'A  1'], 2, 'x'));
    for (const { serial, ticket } of drawn) expect(ticket).toBe(sha256(`x\n${serial}`));
    expect(drawn.map(({ serial }) => serial).sort()).toEqual(['A  1', 'A 1']);
  });
});

describe('a list of serials as text', () => {
  it.each([
    ['lines of any machine', 'A\nB\r\nC\rD', ['A', 'B', 'C', 'D']],
    ['blank lines are none, spaces round a serial do not count', '\n A \n\n \t\nB 1\n', ['A', 'B 1']],
    ['of a table its first column', 'A\tHall 1\nB\tHall 2\tfirst floor', ['A', 'B']],
    ['composed and decomposed letters are one (NFC)', 'e\u0301-1', ['\u00e9-1']],
    ['nothing', '', []],
  ])('%s', (_, text, expected) => {
    expect(serialsIn(text)).toEqual(expected);
  });
});
