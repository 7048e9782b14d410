// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { createForm } from '../../../taskpane/form/form';
import { readAll, startOf, unfitIn } from '../../../taskpane/form/read';
import { ROOM as FIELDS, type RoomField, type RoomTexts } from '../../../taskpane/need/fields';
import { isBlankRoom, understandRoom } from '../../../taskpane/need/understoodroom';
import { TENDER, understandTender } from '../../../taskpane/need/wording';

const START_TENDER = startOf(TENDER);

/** A reading room of an invented library: 2 m², 50 lx, 15 to 1, own contrast 400, half left, daily mode as rated. */
const ROOM: RoomTexts = {
  ...startOf(FIELDS),
  room: 'Reading room 3 (invented)',
  width: '2',
  height: '1',
  ambient: '50',
  ownContrast: '400',
  ageing: '50',
  mode: '100',
};

describe('a room by its fields', () => {
  it('14 × 50 lx ÷ (1 − 15 ÷ 400) × 2 m² ÷ 0.5 = 2909.09 lm, by hand', () => {
    const { need } = understandRoom(ROOM);
    expect(unfitIn(readAll(FIELDS, ROOM))).toEqual([]);
    expect(need!.white).toBeCloseTo(2909.0909, 4);
    expect(need!.governs).toBe('contrast');
    // 727.2727 lx ÷ π
    expect(need!.atEnd.luminance).toBeCloseTo(231.498, 3);
  });

  it('a diagonal of 2 m at 4:3 is 1.6 m by 1.2 m (3-4-5 triangle)', () => {
    const { setup } = understandRoom({
      ...ROOM,
      known: 'diagonal',
      diagonal: '2 m',
      aspect: '4:3',
      width: '',
    });
    expect([setup!.width, setup!.height]).toEqual([1.6, 1.2]);
  });

  it.each([
    ['comma', { width: '1,92' }, 1.92],
    ['unit', { width: '1.92 m' }, 1.92],
    // 1920 m is no image: of two readings only one is possible.
    ['three decimals', { width: '1,920' }, 1.92],
  ])('takes a width with %s', (_, texts, width) => {
    expect(understandRoom({ ...ROOM, ...texts }).setup!.width).toBe(width);
  });

  it.each<[string, Partial<RoomTexts>, RoomField, RegExp]>([
    ['no light', { ambient: '' }, 'ambient', /needed/],
    ['a dark room', { ambient: '0' }, 'ambient', /greater than 0/],
    ['inches', { width: '80 in' }, 'width', /in m here, and 80 in was typed/],
    ['a word', { height: 'tall' }, 'height', /must be a number; it is “tall”/],
    ['more than whole', { ageing: '120' }, 'ageing', /at least 1 and at most 100/],
    ['no contrast', { contrast: '1' }, 'contrast', /greater than 1/],
  ])('%s is refused beside the field', (_, texts, id, words) => {
    const typed = { ...ROOM, ...texts };
    expect(readAll(FIELDS, typed)[id].problem).toMatch(words);
    expect(understandRoom(typed)).toEqual({});
  });

  it('asks which mark was meant, and takes the answer', () => {
    const form = createForm(FIELDS, { name: 'need', start: { ...ROOM, ambient: '1,234' } });
    expect(form.reads.value.ambient.question).toMatchObject({ point: 1234, comma: 1.234 });
    form.decide('ambient', 'comma');
    expect(understandRoom(form.texts.value).setup!.ambient).toBe(1.234);
  });

  it('says what cannot be: 500 to 1 with a projector of 400 to 1', () => {
    const { objection, need } = understandRoom({ ...ROOM, contrast: '500' });
    expect(objection).toMatch(/cannot be reached/);
    expect(need).toBeUndefined();
  });

  it('needs a name, and an empty line is none', () => {
    expect(readAll(FIELDS, { ...ROOM, room: ' ' }).room.problem).toMatch(/name/);
    expect([isBlankRoom(startOf(FIELDS)), isBlankRoom(ROOM)]).toEqual([true, false]);
  });
});

describe('the words', () => {
  const asked = { white: 2909.0909, colour: 2909.0909 };
  it('round up, name the standard, the least part and the plan', () => {
    const found = understandTender({ ...START_TENDER, fraction: '85', units: '60' }).words(asked);
    if (!found.ok) throw new Error('no words');
    expect(found.value.need).toContain('no less than 2910 lm of white');
    expect(found.value.method).toContain('ISO/IEC 21118:2020');
    expect(found.value.decision).toContain('at least 85 %');
    // 60 units, AQL 2.5: 20 drawn, at most 1 (MIL-STD-105E, see test/references/lots.ts).
    expect(found.value.lot).toMatch(/60 units, 20 are drawn.*at most 1 unit nonconforming/);
  });
  it('without a number of units every unit is measured', () => {
    const found = understandTender(START_TENDER).words(asked);
    expect(found.ok && found.value.lot).toBe('Every unit of the delivery is measured.');
  });
  it.each([{ standard: ' ' }, { fraction: '' }, { fraction: '0' }, { units: '2.5' }, { units: '1' }])(
    'are not made from %o',
    (texts) => {
      const found = understandTender({ ...START_TENDER, ...texts });
      expect(found.isFit).toBe(false);
      expect(found.words(asked).ok).toBe(false);
    },
  );
});
