import { readFileSync } from 'node:fs';
import { Ajv2020 as Ajv } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { readSetups } from '../../src/cli/setupfile';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup, type ImageSetup, type RunSetup } from '../../src/sheets/runsetup';
import { SETUP_FIELDS, SETUP_PATHS, type SetupField } from '../../src/sheets/setup/fields';
import { type SetupPath, valueAt, withValues } from '../../src/sheets/setup/path';
import { typedSetup } from '../../src/sheets/setup/read';
import { readTemplate } from '../../src/template/read';
import { FIELD_IDS, FIELDS } from '../../taskpane/setup/fields';
import { createSetupForm } from '../../taskpane/setup/form';

/*
 * The table of set-up fields, walked: what it says of a number, the sheet's rule, the files, the published schema and
 * the form hold to alike, and a set-up comes back from the cells it was put into.
 */
const SIDES: ImageSetup = {
  shape: 'four sides',
  unit: 'm',
  top: 1.6,
  right: 1.2,
  bottom: 1.61,
  left: 1.2,
  falling: 2,
  rising: 2.01,
};
const WHOLE: RunSetup = { ...defaultRunSetup(), projector: 'Type 1 (invented)', checkerboard: true };
const isOfSides = (path: SetupPath) =>
  path.startsWith('image.') && valueAt(defaultRunSetup(), path) === undefined;
const baseFor = (path: SetupPath): RunSetup => (isOfSides(path) ? { ...WHOLE, image: SIDES } : WHOLE);

const NUMBERS = SETUP_PATHS.flatMap((path) => {
  const field: SetupField = SETUP_FIELDS[path];
  return field.kind === 'number' ? [{ path, field }] : [];
});

/** Just inside and just outside of a field's bounds. */
const edges = ({ min, max }: { min: number; max: number }, isWhole: boolean) => ({
  fit: [min, max],
  unfit: [isWhole ? min - 1 : min - 1e-7, isWhole ? max + 1 : max * 1.0001],
});

const published = new Ajv({ allErrors: true, strict: true }).compile(
  JSON.parse(readFileSync('src/template/light-template.schema.json', 'utf8')) as object,
);
/** Where a field of a run stands in a template; undefined where it is of one run alone. */
function inTemplate(path: SetupPath): string | undefined {
  if (path === 'rated.minimumFraction') return 'decision.leastPart';
  if (path === 'uncertainty.level' || path === 'uncertainty.rule')
    return path.replace('uncertainty', 'decision');
  if (path.startsWith('meter.') || path.startsWith('uncertainty.')) return path;
  return [
    'projector',
    'serial',
    'mode',
    'place',
    'measuredBy',
    'date',
    'rated.white',
    'rated.colour',
  ].includes(path)
    ? undefined
    : `measuring.${path}`;
}

/**
 * A length of an image that is not square, with five others that close a figure with it and are within bounds
 * themselves. The least: a square of that side, or a rhombus of two equilateral triangles on that diagonal. Others: a
 * trapezium whose parallel sides are 2 : 1, its diagonals as long as the longer (Ptolemy: p·q = a·c + b·d), or a
 * square on that diagonal.
 */
function withLength(path: SetupPath, value: number): (readonly [SetupPath, number])[] {
  if (!isOfSides(path)) return [[path, value]];
  const all = (lengths: Readonly<Record<string, number>>) =>
    Object.entries(lengths).map(([name, length]) => [`image.${name}` as SetupPath, length] as const);
  const own = path.split('.')[1]!;
  const isDiagonal = own === 'falling' || own === 'rising';
  const isLeast = value <= 1;
  const [side, other] = isLeast ? [value, value * Math.SQRT2] : [value * Math.SQRT1_2, value];
  const square = { top: side, right: side, bottom: side, left: side, falling: other, rising: other };
  if (isDiagonal) {
    const rhombus = { top: value, right: value, bottom: value, left: value };
    const crossing = own === 'falling' ? 'rising' : 'falling';
    return all(
      isLeast ? { ...rhombus, [own]: value, [crossing]: value * Math.sqrt(3) } : { ...square, [own]: value },
    );
  }
  if (isLeast) return all({ ...square, [own]: value });
  const opposite = { top: 'bottom', bottom: 'top', left: 'right', right: 'left' }[own]!;
  return all({ ...square, falling: value, rising: value, [own]: value, [opposite]: value / 2 });
}

describe.each(NUMBERS)('$path', ({ path, field }) => {
  const { fit, unfit } = edges(field.bounds, field.isWhole === true);
  const base = baseFor(path);

  it('has its bounds in the rule of its cell', () => {
    if (field.name === undefined) return;
    const plan = runPlan(base, 'a1');
    const at = plan.names.find(({ name }) => name === field.name)!.range;
    expect(plan.validations.find(({ range }) => range === at)!.rule).toEqual({
      type: 'number',
      min: field.bounds.min,
      max: field.bounds.max,
      ...(field.isWhole ? { whole: true } : {}),
    });
  });

  it('is held to them in a set-up file', () => {
    const read = (value: number) => () => readSetups(withValues(base, withLength(path, value)), 'run.json');
    for (const value of fit) expect(valueAt(read(value)()[0]!, path), String(value)).toBe(value);
    for (const value of unfit) expect(read(value), String(value)).toThrow(path.split('.').at(-1));
  });

  it('is held to them in a template, and in the schema that is published', () => {
    const place = inTemplate(path);
    if (place === undefined) return;
    const template = (value: number) =>
      withValues(
        {
          format: 'light-template',
          version: 1,
          title: 'Bid (invented)',
          measuring: { image: base.image },
          sheets: {},
        },
        withLength(path, value).map(([each, some]) => [
          (each === path ? place : inTemplate(each)) as SetupPath,
          some,
        ]),
      );
    for (const value of fit) {
      expect(readTemplate(JSON.stringify(template(value))).ok, String(value)).toBe(true);
      expect(published(template(value)), String(value)).toBe(true);
    }
    for (const value of unfit) {
      expect(readTemplate(JSON.stringify(template(value))).ok, String(value)).toBe(false);
      expect(published(template(value)), String(value)).toBe(false);
    }
  });

  it('is held to them in the form, in the unit people type', () => {
    const id = FIELD_IDS.find((each) => FIELDS[each].path === path);
    if (id === undefined || FIELDS[id].kind === 'choice') return;
    // A length is bounded in the unit of the tape: the cell takes the least of metres and the most of millimetres.
    const scale = field.unit === '%' ? 100 : 1;
    const check = (value: number, unit: string) => {
      const form = createSetupForm('2026-11-25');
      for (const [other, text] of [
        ['known', isOfSides(path) ? 'four sides' : 'width'],
        ['lengthUnit', unit],
        ['black', 'yes'],
        [id, (value * scale).toFixed(9)],
      ] as const)
        form.type(other, text);
      return form.reads.value[id].problem === undefined;
    };
    expect([check(fit[0]!, 'm'), check(fit[1]!, 'mm')]).toEqual([true, true]);
    expect([check(unfit[0]!, 'm'), check(unfit[1]!, 'mm')]).toEqual([false, false]);
  });
});

it('comes back from the cells of a sheet, whatever its kind', () => {
  const some = {
    ...WHOLE,
    serial: '0042',
    date: '2026-11-25',
    gain: 1.3,
    standard: 'P3-DCI',
    meter: { ...WHOLE.meter, name: 'Meter 7 (invented)', unit: 'fc', digit: 0.1, calibration: 1.02 },
    rated: { white: 3000, colour: 2800, minimumFraction: 0.9 },
    uncertainty: { ...WHOLE.uncertainty, ofReading: 0.03, spectral: { blue: 0.1 }, level: 0.99 },
  } as const satisfies RunSetup;
  for (const image of [WHOLE.image, SIDES]) {
    const plan = runPlan({ ...some, image }, 'a1');
    const cell = (name: string) => {
      const range = plan.names.find((each) => each.name === name)?.range;
      return range === undefined ? null : plan.cells[range]?.value;
    };
    const { checkerboard: _, ...typed } = typedSetup(cell, image === SIDES);
    expect(typed).toEqual({ ...some, image, checkerboard: undefined });
  }
});
