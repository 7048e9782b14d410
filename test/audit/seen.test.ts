import { describe, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { lostSeals } from '../../src/audit/seal/lost';
import { verify } from '../../src/audit/seal/verify';
import { readXlsx, remarksOf } from '../../src/xlsx';
import { amount } from '../tools/amount';
import { MADE } from './seen/made';
import { MORE } from './seen/more';
import { changedFile } from './seen/parts';
import { book, bytes, own, sealedOnce } from './seen/sealedsheet';

/*
 * What changes what a person sees of a sealed sheet, made in the file as anybody can: by whom it is found, and what is
 * named. `outside` stands for what neither looks at, with the reason. The elements and attributes are those of
 * ECMA-376-1, chapter 18. The same changes in an open workbook, as the pane sees them, are in test/excel/seen.test.ts.
 */

sealedOnce();

describe('what is seen of a sealed sheet', () => {
  it('holds as it was made, and the check of the file finds nothing', async () => {
    expect(await verify(book, own.name, { subtle: crypto.subtle })).toMatchObject({ state: 'holds' });
    const { findings } = await check(book, { file: remarksOf(bytes) });
    expect(findings.filter(({ kind }) => kind === 'seen')).toEqual([]);
  });

  const tried = [...MADE, ...MORE.filter((_, i) => i % amount(4, 1) === 0)];
  it.each(tried.map((made) => [made.what, made] as const))('%s', async (_, made) => {
    const now = changedFile(made);
    if (made.refused) {
      await expect(readXlsx(now)).rejects.toThrow(made.refused);
      return;
    }
    const read = await readXlsx(now);
    const report = await verify(read, read.sheets[0]!.name, { subtle: crypto.subtle });
    const named = report.differences.map(({ group, key }) => `${group} ${key}`);
    const found = (await check(read, { file: remarksOf(now) })).findings.map(({ message }) => message);
    const lost = lostSeals(read);
    if (made.seal) {
      expect(report.state).toBe('broken');
      expect(named).toContainEqual(expect.stringMatching(made.seal));
      expect(named.length, named.join()).toBeLessThanOrEqual(30);
    } else if (made.damaged) {
      expect(['broken', 'unreadable']).toContain(report.state);
      expect(report.reasons.join(' ')).toMatch(made.damaged);
    } else if (lost.length === 0) expect([report.state, named, report.reasons]).toEqual(['holds', [], []]);
    if (made.check) expect([...found, ...lost]).toContainEqual(expect.stringMatching(made.check));
    expect(made.seal ?? made.check ?? made.damaged ?? made.outside).toBeDefined();
  });
});
