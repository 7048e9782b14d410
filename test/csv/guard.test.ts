import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { split } from '../../src/csv/split';
import { csvText, guarded, unguarded } from '../../src/csv/write';
import { HOSTILE } from './hostile';

describe('texts that would be formulas', () => {
  it.each(HOSTILE)('%j is a text for programs of either separator, and comes back as it was', (text) => {
    for (const separator of [',', ';'] as const) {
      expect(unguarded(guarded(text, separator), separator)).toBe(text);
      const row = csvText([['name', text]], separator);
      const mark = separator === ',' ? 'comma' : 'semicolon';
      // Split at each separator without heed to quotation marks, as a program for another one does.
      const foreign = separator === ',' ? /[;\t\r\n]/ : /[,\t\r\n]/;
      for (const part of row.split(foreign))
        expect(
          part.replace(/^[\s\p{Cf}"']*/u, (skipped) => (skipped.includes("'") ? 'safe' : '')),
        ).not.toMatch(/^[=+\-@＝＋－＠]/);
      expect(split(row, mark)[0]!.cells[1]).toMatch(/^[^=+\-@＝＋－＠\t\r\n]/);
    }
  });

  it('any text comes back', () => {
    const unit = fc.constantFrom(...'a1 ",;\t\n\'=+-@＝\u200b');
    fc.assert(
      fc.property(
        fc.string({ unit, maxLength: 12 }),
        fc.constantFrom(',' as const, ';' as const),
        (text, mark) => {
          expect(unguarded(guarded(text, mark), mark)).toBe(text);
        },
      ),
    );
  });

  it('numbers stay numbers, and prose stays as it is', () => {
    expect(csvText([['a', -5, 2.5, 1e-7, true, null, '-5', '+1.5e3', '-.5']])).toBe(
      'a,-5,2.5,1e-7,true,,-5,+1.5e3,-.5\r\n',
    );
    expect(csvText([['from 1 to 5; then - perhaps - more']])).toBe(
      '"from 1 to 5; then - perhaps - more"\r\n',
    );
  });

  it('a sign at the beginning of a line would take in the rest of it in another country: a text there is guarded', () => {
    expect(csvText([['-5', "1+cmd|' /C calc'!A0"]])).toBe("'-5,1+cmd|' /C calc'!A0\r\n");
  });

  it('a long run of line ends takes no longer than its length', () => {
    expect(guarded(`x${'\n'.repeat(200_000)}`, ',')).toHaveLength(200_001);
  });
});
