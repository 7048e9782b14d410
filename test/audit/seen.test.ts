import { describe, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { answerOf } from '../../src/audit/check/text';
import { lostSeals } from '../../src/audit/seal/lost';
import { verify } from '../../src/audit/seal/verify';
import { readXlsx, remarksOf } from '../../src/xlsx';
import { amount } from '../tools/amount';
import { MADE } from './seen/made';
import { MORE } from './seen/more';
import { changedFile, commented, linked, type Made, put } from './seen/parts';
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

/** What the check of a changed file says of what is seen, and its headline. */
async function told(made: Pick<Made, 'change'>) {
  const now = changedFile(made);
  const report = await check(await readXlsx(now), { file: remarksOf(now), subtle: crypto.subtle });
  const seen = report.findings.filter(({ kind }) => kind === 'seen');
  return { seen, severities: seen.map(({ severity }) => severity), answer: answerOf(report) };
}
const madeOf = (what: string) => MADE.find((made) => made.what === what)!;

describe('the answer over what is seen', () => {
  it.each([
    'a note of ours',
    'a note of ours taken away',
    'an opened range',
    'a link out of the workbook',
    'a link within the workbook',
  ])('%s is a warning', async (what) => {
    const { severities, answer } = await told(madeOf(what));
    expect(severities).toEqual(['warning']);
    expect(answer).toMatch(/^No: 1 warning/);
  });

  it.each(['all notes of ours taken away', 'a comment that people answer', 'a protection that allows more'])(
    '%s is a note, and not everything is as built',
    async (what) => {
      const { severities, answer } = await told(madeOf(what));
      expect(severities).toEqual(['note']);
      expect(answer).toMatch(/^Yes: every result follows .* though not everything is as built \(\d notes?/);
    },
  );

  it('a comment is told with all its answers, once, though older programs are given a note in its place', async () => {
    const { seen } = await told({
      change: (p) => {
        commented('B3', 'Really 3999.')(p);
        const one = 'xl/threadedComments/threadedComment1.xml';
        p[one] = p[one]!.replace(
          '</ThreadedComments>',
          '<threadedComment ref="B3" personId="{C}" id="{D}" parentId="{B}"><text>No, &amp; why?</text></threadedComment>$&',
        );
        put(
          p,
          Object.keys(p).find((path) => /comments1\.xml$/.test(path))!,
          '<commentList>',
          '<commentList><comment ref="B3" authorId="0"><text><t>[Threaded comment] Your version …</t></text></comment>',
        );
      },
    });
    expect(seen.map(({ at, found }) => [at, found])).toEqual([['B3', 'Really 3999. / No, & why?']]);
  });

  it('a link that a program made of what was typed is not told, one that leads elsewhere is', async () => {
    const typed = own.names.find(({ name }) => name === 'Projector')!.refersTo;
    const at = /\$([A-Z]+)\$(\d+)/.exec(typed)!.slice(1).join('');
    const text = own.cells[at]!.value as string;
    const link = `ref="${at}" r:id="rId98"`;
    const of = (attributes: string, outside: string) => told({ change: linked(attributes, outside) });
    expect((await of(link, `http://${text}/`)).seen).toEqual([]);
    expect((await of(link, `mailto:${text}`)).seen).toEqual([]);
    // A cell to be filled in is the person's own.
    expect((await of(link, 'https://example.invalid/')).severities).toEqual(['note']);
    expect((await of(`${link} tooltip="Certified"`, `http://${text}/`)).severities).toEqual(['note']);
    expect((await of(`ref="A1:${at}" r:id="rId98"`, `http://${text}/`)).severities).toEqual(['warning']);
  });
});
