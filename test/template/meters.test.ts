import { describe, expect, it } from 'vitest';
import type { DefinedName } from '../../src/sheets/book';
import { defaultRunSetup, type RunSetup } from '../../src/sheets/runsetup';
import {
  dueMeters,
  keepMeters,
  keptMeters,
  MOST_METERS,
  meterOf,
  withMeter,
} from '../../src/template/meters';

/* Meters and figures are invented. */
const setup = (name: string, more: Partial<RunSetup['meter']> = {}): RunSetup => {
  const base = defaultRunSetup();
  return {
    ...base,
    meter: { ...base.meter, name, digit: 0.1, calibratedOn: '2026-01-15', ...more },
    uncertainty: {
      ...base.uncertainty,
      ofReading: 0.03,
      digits: 4,
      f1: 0.06,
      f2: 0.03,
      room: 0.02,
      width: 4,
    },
  };
};
const meter = (name: string, more: Partial<RunSetup['meter']> = {}) => meterOf(setup(name, more))!;
const apply = (names: readonly DefinedName[], meters: Parameters<typeof keepMeters>[0]) => {
  const { remove, set } = keepMeters(meters, names);
  const gone = new Set([...remove, ...set.map(({ name }) => name)]);
  return [...names.filter(({ name }) => !gone.has(name)), ...set];
};

describe('the list of meters', () => {
  it('keeps what belongs to the meter and nothing of what is measured', () => {
    const own = meter('LM 7', { certificate: 'C-17', dueOn: '2027-01-15' });
    expect(own.meter).toMatchObject({ name: 'LM 7', digit: 0.1, certificate: 'C-17', dueOn: '2027-01-15' });
    expect(own.uncertainty).toMatchObject({ ofReading: 0.03, digits: 4, f1: 0.06, f2: 0.03 });
    expect(JSON.stringify(own)).not.toMatch(/room|width|level|rule|light/);
    expect(meterOf(setup(''))).toBeUndefined();
  });

  it('comes back from the workbook by name, one of each, and is gone when it is empty', () => {
    let names = apply([], withMeter([], meter('LM 7')));
    names = apply(names, withMeter([meter('LM 7')], meter('A 1')));
    names = apply(names, withMeter([meter('LM 7'), meter('A 1')], meter('lm 7', { digit: 1 })));
    const kept = keptMeters(names);
    expect(kept.ok && kept.meters.map((one) => [one.meter.name, one.meter.digit])).toEqual([
      ['A 1', 0.1],
      ['lm 7', 1],
    ]);
    expect(apply(names, [])).toEqual([]);
    expect(keptMeters([])).toEqual({ ok: true, meters: [] });
  });

  it('takes a hundred, in as many names as they need', () => {
    const many = Array.from({ length: MOST_METERS }, (_, i) => meter(`Meter ${i}, with a name "in quotes"`));
    const kept = keptMeters(apply([], many));
    expect(kept.ok && kept.meters.length).toBe(MOST_METERS);
    expect(() => withMeter(many, meter('one more'))).toThrow('100 meters');
  });

  it.each([
    ['no JSON', '="{"'],
    ['no text', '=Sheet1!$A$1'],
    ['a newer version', '="{""version"":2,""meters"":[]}"'],
    [
      'a field that is none',
      '="{""version"":1,""meters"":[{""meter"":{""name"":""x""},""uncertainty"":{},""more"":1}]}"',
    ],
    [
      'a figure out of bounds',
      '="{""version"":1,""meters"":[{""meter"":{""name"":""x""},""uncertainty"":{""ofReading"":3}}]}"',
    ],
    [
      'two of a name',
      '="{""version"":1,""meters"":[{""meter"":{""name"":""x""},""uncertainty"":{}},{""meter"":{""name"":""X""},""uncertainty"":{}}]}"',
    ],
    ['a trick', '="{""version"":1,""__proto__"":{""meters"":[]},""meters"":[]}"'],
  ])('takes nothing of %s', (_, refersTo) => {
    expect(keptMeters([{ name: 'LightMeters', refersTo }]).ok).toBe(false);
  });

  it('tells whose calibration is due, on the day itself too', () => {
    const meters = [
      meter('due', { dueOn: '2026-11-25' }),
      meter('later', { dueOn: '2026-11-26' }),
      meter('unknown'),
    ];
    expect(dueMeters(meters, '2026-11-25').map((one) => one.meter.name)).toEqual(['due']);
  });
});
