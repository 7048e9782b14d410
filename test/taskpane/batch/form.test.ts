// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { BATCH, type BatchTexts, batchSetup } from '../../../taskpane/batch/form';
import { unitList } from '../../../taskpane/batch/serials';
import { readAll, startOf } from '../../../taskpane/form/read';
import { SETUP } from '../scenes';

const START = startOf(BATCH);
const setupOf = (part: Partial<BatchTexts>) => batchSetup({ ...START, ...part }, SETUP);
const readsOf = (part: Partial<BatchTexts>) => readAll(BATCH, { ...START, ...part });

describe('the list of units', () => {
  it('takes a serial number a line, with a place behind a tab or a semicolon', () => {
    expect(unitList('K-1\tHall\n\nK-2;Office;east\r\n K-3 ').units).toEqual([
      { serial: 'K-1', place: 'Hall' },
      { serial: 'K-2', place: 'Office, east' },
      { serial: 'K-3' },
    ]);
  });

  it.each([
    ['a unit twice', 'K-1\nK-2\nK-1', ['Line 3: “K-1” stands in line 1 already.']],
    ['a line without a number', ';Hall', ['Line 1 has no serial number.']],
    ['a name too long', 'x'.repeat(81), ['Line 1: a serial number has at most 80 characters.']],
  ])('%s', (_what, text, problems) => expect(unitList(text).problems).toEqual(problems));

  it('tells a few of many problems, and how many more', () => {
    const { problems } = unitList(Array<string>(20).fill('K-1').join('\n'));
    expect(problems).toHaveLength(6);
    expect(problems[5]).toBe('And 14 more like these.');
  });

  it('refuses more than one sheet holds', () => {
    const text = Array.from({ length: 5001 }, (_, i) => `K-${i}`).join('\n');
    expect(unitList(text).problems).toEqual([
      'One sheet holds 5000 units; there are 5001. Make several batches.',
    ]);
  });
});

describe('the form', () => {
  it('makes a table of at least twenty lines, or as many as units or asked for', () => {
    expect(setupOf({ units: 'K-1' })!.lines).toBe(20);
    expect(setupOf({ units: Array.from({ length: 33 }, (_, i) => `K-${i}`).join('\n') })!.lines).toBe(33);
    expect(setupOf({ lines: '250' })!.lines).toBe(250);
    expect(readsOf({ units: 'K-1\nK-2', lines: '1' }).lines.problem).toBe(
      'There are 2 units, and 1 lines: leave that field empty or raise it.',
    );
  });

  it('takes a stated U as a part of the result', () => {
    expect(setupOf({ whiteStated: '8 %' })!.stated).toEqual({ white: 0.08 });
  });

  it('asks for a reference only where the centre alone is read', () => {
    expect(readsOf({}).reference).toEqual({});
    expect(readsOf({ readings: 'centre white' }).reference.problem).toMatch(/^Name the reference unit/);
    const asked = { readings: 'centre white', reference: 'K-1', whiteReference: '900' };
    expect(setupOf(asked)).toMatchObject({
      readings: 'centre white',
      reference: { unit: 'K-1', white: 900 },
    });
  });

  it('is nothing while the run form is not fit', () => {
    expect(batchSetup(START, undefined)).toBeUndefined();
  });
});
