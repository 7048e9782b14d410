// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { quantity } from '../../../taskpane/parse/quantity';

const WIDTH = { what: 'width', unit: 'm', min: 0.1, max: 200 };
const FACTOR = { what: 'factor', unit: '', min: 0.1, max: 10 };
const RATED = { what: 'rated light output', unit: 'lm', min: 10, max: 1_000_000 };

describe('a field of the form', () => {
  it('takes the number with or without its own unit, and says how it understood it', () => {
    expect(quantity('1.6', WIDTH)).toEqual({ state: 'value', value: 1.6, echo: '' });
    expect(quantity('1,6 m', WIDTH)).toEqual({ state: 'value', value: 1.6, echo: '1.6 m' });
    expect(quantity('1,6 metres', WIDTH)).toMatchObject({ state: 'value', value: 1.6 });
    expect(quantity('2 300 lm', RATED)).toEqual({ state: 'value', value: 2300, echo: '2300 lm' });
  });

  it('takes the one reading that its bounds allow, and shows it', () => {
    expect(quantity('1,234', WIDTH)).toEqual({ state: 'value', value: 1.234, echo: '1.234 m' });
    expect(quantity('1,023', FACTOR)).toEqual({ state: 'value', value: 1.023, echo: '1.023' });
    expect(quantity('2.300', RATED)).toEqual({ state: 'value', value: 2300, echo: '2300 lm' });
  });

  it('asks where both readings are possible', () => {
    expect(quantity('50,000', RATED)).toMatchObject({ state: 'ask', point: 50_000, comma: 50 });
    expect(quantity('50,000', RATED, 'comma')).toMatchObject({ state: 'value', value: 50 });
  });

  it('never converts a unit by itself', () => {
    expect(quantity('100 in', WIDTH)).toMatchObject({ state: 'other unit', value: 100, unit: 'in' });
    expect(quantity('100"', WIDTH)).toMatchObject({ state: 'other unit', unit: 'in' });
    expect(quantity('1.02 lx', FACTOR)).toMatchObject({ state: 'other unit' });
    expect(quantity('1.6 furlongs', WIDTH)).toMatchObject({ state: 'refused' });
  });

  it('refuses with what was expected and what came', () => {
    expect(quantity('0', WIDTH)).toEqual({
      state: 'refused',
      message: 'Width: it must be at least 0.1 and at most 200; it is 0.',
    });
    expect(quantity('wide', WIDTH)).toEqual({
      state: 'refused',
      message: 'Width: it must be a number; it is \u201cwide\u201d.',
    });
    expect(quantity('-2', WIDTH).state).toBe('refused');
    expect(quantity('1e99', WIDTH).state).toBe('refused');
  });

  it('leaves blank what is blank', () => {
    expect(quantity(' ', WIDTH)).toEqual({ state: 'blank' });
  });
});
