// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { runPlan } from '../../../src/sheets/run';
import type { FieldId } from '../../../taskpane/setup/field';
import { FIELD_IDS, FIELDS } from '../../../taskpane/setup/fields';
import { createSetupForm } from '../../../taskpane/setup/form';
import { isoDay } from '../../../taskpane/setup/start';

function formWith(texts: Partial<Record<FieldId, string>>) {
  const form = createSetupForm('2026-11-25');
  form.type('projector', 'Branch 7');
  for (const [id, text] of Object.entries(texts)) form.type(id as FieldId, text);
  return form;
}

describe('the image', () => {
  /*
   * Plane geometry. 4:3, height 1.2 m: 1.6 × 1.2 = 1.92 m². 16:9, diagonal 100 in = 2.54 m (NIST SP 811): width
   * 2.54 · 16 ÷ √337, height 2.54 · 9 ÷ √337, worked out with 30 decimal digits and rounded to the sixth.
   */
  it.each([
    [{ known: 'height', length: '1,2', aspect: '4:3' }, 1.6, 1.2, 1.92],
    [{ known: 'diagonal', length: '100', lengthUnit: 'in', aspect: '16:9' }, 2.213802, 1.245264, 2.756767],
    [{ known: 'width and height', width: '160 cm', height: '120', lengthUnit: 'cm' }, 1.6, 1.2, 1.92],
    [
      {
        known: 'four sides',
        top: '1.6',
        bottom: '1.6',
        left: '1.2',
        right: '1.2',
        falling: '2',
        rising: '2',
      },
      1.6,
      1.2,
      1.92,
    ],
  ] as const)('%j', (texts, width, height, area) => {
    const form = formWith(texts);
    const picture = form.picture.value!;
    if ('problem' in picture) throw new Error(picture.problem);
    expect(picture.width).toBeCloseTo(width, 6);
    expect(picture.height).toBeCloseTo(height, 6);
    expect(picture.area).toBeCloseTo(area, 6);
    expect(runPlan(form.setup.value!, 'a1').kind).toBe('run');
  });

  it('says where to put the marks, in centimetres', () => {
    const picture = formWith({ known: 'width', length: '1.8', aspect: '3:2', corners: 'yes' }).picture.value!;
    if ('problem' in picture) throw new Error(picture.problem);
    // Centres of a 3 × 3 division of 180 × 120 cm, and 5 % inside the corners: references 1.2, F2 and F3.
    expect(picture.points).toHaveLength(13);
    expect(picture.points[0]!.leftCm).toBeCloseTo(30, 9);
    expect(picture.points[0]!.topCm).toBeCloseTo(20, 9);
    expect(picture.points[12]!.leftCm).toBeCloseTo(171, 9);
    expect(picture.points[12]!.topCm).toBeCloseTo(114, 9);
  });

  it('warns when it is not square, and refuses sides that cannot meet', () => {
    // A trapezium 1.6 and 1.65 wide: its diagonals are √(1.2² + 1.6 · 1.65) = 2.02.
    const sides = {
      known: 'four sides',
      left: '1.2',
      right: '1.2',
      falling: '2.02',
      rising: '2.02',
    } as const;
    const uneven = formWith({ ...sides, top: '1.6', bottom: '1.65' }).picture.value!;
    expect('remark' in uneven && uneven.remark).toContain('Opposite sides differ by 3.1 %');
    const impossible = formWith({ ...sides, top: '1.6', bottom: '9' });
    expect(impossible.picture.value).toHaveProperty('problem');
    expect(impossible.setup.value).toBeUndefined();
  });

  it('has no size by default: a default would be a silently wrong area', () => {
    const form = createSetupForm('2026-11-25');
    expect(form.picture.value).toBeUndefined();
    expect(form.setup.value).toBeUndefined();
  });
});

describe('the fields', () => {
  it('need only projector and image length for a run', () => {
    expect(createSetupForm('2026-11-25').unfit.value).toEqual(['projector', 'length']);
    expect(formWith({ length: '1.6' }).setup.value).toMatchObject({
      projector: 'Branch 7',
      date: '2026-11-25',
      meter: { unit: 'lx', range: 1, calibration: 1 },
      rated: { minimumFraction: 0.8 },
    });
  });

  it('leave out what the other answers make meaningless', () => {
    const form = formWith({ length: '1.6', redCorrection: 'x' });
    expect(form.unfit.value).toEqual(['redCorrection']);
    form.type('colour', 'none');
    expect(form.unfit.value).toEqual([]);
  });

  it('keep a rated value that is not stated unstated: a question, not a zero', () => {
    const { rated } = formWith({ length: '1.6', ratedWhite: '2 500 lm' }).setup.value!;
    expect(rated).toEqual({ white: 2500, minimumFraction: 0.8 });
  });

  it('ask for the decimal mark, and forget the answer when the text changes', () => {
    const form = formWith({ length: '1.6', ratedWhite: '50,000' });
    expect(form.reads.value.ratedWhite.question).toMatchObject({ point: 50_000, comma: 50 });
    expect(form.setup.value).toBeUndefined();
    form.decide('ratedWhite', 'point');
    expect(form.setup.value?.rated.white).toBe(50_000);
    form.type('ratedWhite', '60,000');
    expect(form.setup.value).toBeUndefined();
  });

  it('offer to switch to the unit that was typed, and convert nothing', () => {
    const form = formWith({ length: '100 in' });
    expect(form.reads.value.length.problem).toBe(
      'The length is in m here, and 100 in was typed. Type it in m.',
    );
    form.useUnit('length');
    expect(form.texts.value).toMatchObject({ length: '100', lengthUnit: 'in' });
    expect(form.setup.value?.image).toMatchObject({ length: 100, unit: 'in' });
  });

  it('note an old calibration and refuse one of the future', () => {
    expect(formWith({ calibratedOn: '2025-06-01' }).reads.value.calibratedOn.echo).toContain(
      'More than a year',
    );
    expect(formWith({ calibratedOn: '2026-06-01' }).reads.value.calibratedOn).toEqual({});
    expect(formWith({ calibratedOn: '2027-01-01' }).reads.value.calibratedOn.problem).toContain(
      'after the date',
    );
  });

  it('keep the projector text, whatever it begins with', () => {
    expect(formWith({ length: '1.6', projector: '=1+1' }).setup.value?.projector).toBe('=1+1');
    expect(formWith({ projector: 'x'.repeat(121) }).reads.value.projector.problem).toContain('at most 120');
  });

  it('are all in the form', () => {
    expect(new Set(FIELD_IDS).size).toBe(FIELD_IDS.length);
  });
});

it('writes the day of the person\u2019s own clock', () => {
  expect(isoDay(new Date(2026, 0, 5, 23, 59))).toBe('2026-01-05');
});

describe('how sure', () => {
  it('leaves everything unknown undefined, so that the sheet takes its cautious values', () => {
    const { repeats, uncertainty } = formWith({ length: '1.6' }).setup.value!;
    expect(repeats).toBe(1);
    expect(uncertainty).toMatchObject({
      meterClass: 'unknown',
      statement: 'limit of error',
      light: 'unknown',
      level: 0.9545,
      rule: 'guard band U: four outcomes',
    });
    const {
      meterClass: _c,
      statement: _s,
      light: _k,
      level: _l,
      rule: _r,
      spectral,
      ...numbers
    } = uncertainty;
    expect([...Object.values(numbers), ...Object.values(spectral ?? {})].every((v) => v === undefined)).toBe(
      true,
    );
  });

  it('turns per cent into fractions and keeps millimetres, lux and digits', () => {
    const { repeats, uncertainty } = formWith({
      length: '1.6',
      repeats: '3',
      meterClass: 'B',
      ofReading: '3 %',
      digits: '5',
      blueMismatch: '12,5',
      widthHalf: '4 mm',
      squareHalf: '0',
      ambientHalf: '0.3',
      level: '99',
      rule: 'no guard band',
    }).setup.value!;
    expect(repeats).toBe(3);
    expect(uncertainty).toEqual({
      meterClass: 'B',
      ofReading: 0.03,
      digits: 5,
      spectral: { white: undefined, red: undefined, green: undefined, blue: 0.125 },
      width: 4,
      // Nought is a statement, not an empty field.
      square: 0,
      ambient: 0.3,
      statement: 'limit of error',
      light: 'unknown',
      level: 0.99,
      rule: 'no guard band',
    });
  });

  it.each([
    ['ofReading', '-1'],
    ['ofReading', '101'],
    ['level', '100'],
    ['level', '49'],
    ['widthHalf', '1 cm'],
    ['digits', 'many'],
  ] as const)('refuses %s of %s', (id, text) => {
    const form = formWith({ length: '1.6', [id]: text });
    expect(form.unfit.value).toEqual([id]);
    expect(form.setup.value).toBeUndefined();
    // A doubt in another unit is no reason to change the unit of the image.
    expect(form.reads.value[id].otherUnit).toBeUndefined();
  });

  it.each([
    // Classes: DIN 5032-7:1985 total errors 3, 5, 10, 20 %, as the model's defaults cite them.
    ['unknown', '\u00b1 20 %'],
    ['L', '\u00b1 3 %'],
    ['C', '\u00b1 20 %'],
  ])('says beside the empty field what class %s stands for', (meterClass, words) => {
    const { hint } = FIELDS.ofReading;
    const texts = formWith({ meterClass }).texts.value;
    expect(typeof hint === 'function' && hint(texts)).toContain(words);
  });

  it('builds grids for every repeat', () => {
    const names = runPlan(formWith({ length: '1.6', repeats: '3' }).setup.value!, 'a1').names.map(
      ({ name }) => name,
    );
    expect(names).toEqual(expect.arrayContaining(['WhiteRepeat2', 'BlueRepeat3']));
    expect(names).not.toContain('WhiteRepeat4');
  });
});
