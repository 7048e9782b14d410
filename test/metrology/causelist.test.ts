import { describe, expect, it } from 'vitest';
import { layoutOf } from '../../src/metrology/run/components';
import type { OtherInput, RunInput } from '../../src/metrology/run/input';
import { runModel } from '../../src/metrology/run/model';
import { wordsOf } from '../../src/metrology/run/words';
import { got } from './outcome';
import { EXACT } from './runs';

const other = (label: string, appliesTo: OtherInput['appliesTo']): OtherInput => ({
  label,
  appliesTo,
  half: 0.01,
  distribution: 'normal',
});
const ONE: RunInput = {
  image: { width: 2, height: 1.5 },
  meter: {},
  white: { repeats: [[1000]] },
  ambient: { value: 0 },
};
/** Every cause a run can have, on one point a field. */
const ALL: RunInput = {
  ...ONE,
  red: { repeats: [[200]] },
  black: { repeats: [[2]] },
  board: { white: [900], black: [5] },
  placing: {},
  linearity: {},
  screen: { gain: 1 },
  sensor: {},
  oblique: {},
  room: {},
  others: [other('Lamp', 'all'), other('Filter', 'colours'), other('Panel', 'red')],
};
const layout = (input: RunInput) => layoutOf(input);
const idsOf = (input: RunInput) => layout(input).components.map(({ id }) => id);

describe('the causes of a run', () => {
  it('each say what they are, in which unit, and what shares them', () => {
    const rows = layout(ALL).components.map(({ id, label, line, unit, scope, sharedBy, estimate }) => [
      id,
      // A row of a budget that stands for several causes, or for one.
      line === label ? label : `${label} → ${line}`,
      unit,
      scope,
      sharedBy,
      ...(estimate === undefined ? [] : [estimate]),
    ]);
    expect(rows.map((row) => row.join(' | '))).toEqual([
      'gain | Meter, % of reading |  | meter | every reading of this meter',
      'digits:x1 | Meter, digits, range × 1 | lx | meter | every reading in this range',
      'resolution:white:1 | Display resolution, white, point 1 → Display resolution, white readings | lx | reading | one reading',
      'repeatability:white:1 | Repeatability, white, point 1 → Repeatability, white readings | lx | reading | one reading | repeatability:white',
      'placing:white:1 | Placing of the meter, white, point 1 → Placing of the meter, white readings |  | reading | one reading',
      'linearity:white | Linearity and range step, white |  | run | every white reading',
      'resolution:red:1 | Display resolution, red, point 1 → Display resolution, red readings | lx | reading | one reading',
      'repeatability:red:1 | Repeatability, red, point 1 → Repeatability, red readings | lx | reading | one reading | repeatability:red',
      'placing:red:1 | Placing of the meter, red, point 1 → Placing of the meter, red readings |  | reading | one reading',
      'linearity:red | Linearity and range step, red |  | run | every red reading',
      'resolution:black:1 | Display resolution, black, point 1 → Display resolution, black readings | lx | reading | one reading',
      'repeatability:black:1 | Repeatability, black, point 1 → Repeatability, black readings | lx | reading | one reading | repeatability:black',
      'placing:black:1 | Placing of the meter, black, point 1 → Placing of the meter, black readings |  | reading | one reading',
      'linearity:black | Linearity and range step, black |  | run | every black reading',
      'spectral:white | Spectral mismatch, white |  | spectrum | every white reading',
      'spectral:red | Spectral mismatch, red |  | spectrum | every red reading',
      'spectral:black | Spectral mismatch, black |  | spectrum | every black reading',
      'resolution:white tile:1 | Display resolution, white tile, point 1 → Display resolution, white tile readings | lx | reading | one reading',
      'repeatability:white tile:1 | Repeatability, white tile, point 1 → Repeatability, white tile readings | lx | reading | one reading | repeatability:white tile',
      'placing:white tile:1 | Placing of the meter, white tile, point 1 → Placing of the meter, white tile readings |  | reading | one reading',
      'resolution:black tile:1 | Display resolution, black tile, point 1 → Display resolution, black tile readings | lx | reading | one reading',
      'repeatability:black tile:1 | Repeatability, black tile, point 1 → Repeatability, black tile readings | lx | reading | one reading | repeatability:black tile',
      'placing:black tile:1 | Placing of the meter, black tile, point 1 → Placing of the meter, black tile readings |  | reading | one reading',
      'ambient | Ambient light | lx | run | every light output of the run',
      'width | Image width | m | image | every light output of the run',
      'height | Image height | m | image | every light output of the run',
      'square | Image not square |  | image | every light output of the run',
      'drift:white | Drift, white |  | run | the white readings of the run',
      'drift:colours | Drift, colours |  | run | the colour readings of the run',
      'screen | Screen gain |  | screen | every luminance on this screen',
      'sensor | Sensor in front of the screen |  | run | every light output of the run',
      'oblique | Oblique light on the sensor |  | run | every light output of the run',
      'room | Light the room sends back |  | run | every light output of the run',
      'other:Lamp | Lamp |  | run | every light output of the run',
      'other:Filter | Filter |  | run | red, green and blue light output',
      'other:Panel | Panel |  | run | red light output',
    ]);
  });

  it('are none that nobody asked for, and no drift of colours where there is no colour', () => {
    expect(idsOf(ONE)).toEqual([
      'gain',
      'digits:x1',
      'resolution:white:1',
      'repeatability:white:1',
      'spectral:white',
      'ambient',
      'width',
      'height',
      'square',
      'drift:white',
    ]);
    expect(layout(ONE)).toMatchObject({ driftColours: -1, size: -1, screen: -1, everywhere: [] });
  });

  it('number the points from 1, however many were named before', () => {
    const ids = (points: number) =>
      idsOf({ ...ONE, white: { repeats: [Array<number>(points).fill(1000)] } }).filter((id) =>
        id.startsWith('resolution'),
      );
    expect(ids(1)).toEqual(['resolution:white:1']);
    expect(ids(3)).toEqual(['resolution:white:1', 'resolution:white:2', 'resolution:white:3']);
    expect(ids(2)).toEqual(['resolution:white:1', 'resolution:white:2']);
    // Making the words costs more than the sums of a run: they are made once.
    expect(wordsOf('white', 4)).toBe(wordsOf('white', 1));
  });

  it('of one measured length: width and height as they are, and what both have in common as a factor', () => {
    const { components, size } = layout({ ...ONE, image: { ...ONE.image, isOneLength: true } });
    const rows = components.flatMap(({ scope, id, label, value, unit }) =>
      scope === 'image' ? [[id, label, value, unit]] : [],
    );
    expect(rows).toEqual([
      ['width', 'Image width', 2, 'm'],
      ['height', 'Image height', 1.5, 'm'],
      ['size', 'Image size, one length measured', 1, ''],
      ['square', 'Image not square', 1, ''],
    ]);
    expect(components[size]?.id).toBe('size');
  });
});

describe('what a cause bears on', () => {
  it.each<[OtherInput['appliesTo'], string[]]>([
    // Black has no light output.
    ['all', ['white', 'red', 'green', 'blue']],
    ['colours', ['red', 'green', 'blue']],
    ['white', ['white']],
    ['green', ['green']],
  ])('a line of the user on %s', (appliesTo, names) => {
    const { fields, components } = layout({
      ...EXACT,
      black: { repeats: [Array<number>(9).fill(2)] },
      others: [other('Lamp', appliesTo)],
    });
    const bearing = fields.flatMap(({ field, others }) =>
      others.map((at) => [field.name, components[at]?.id]),
    );
    expect(bearing).toEqual(names.map((name) => [name, 'other:Lamp']));
  });

  it.each<[string, Partial<RunInput>, string[]]>([
    ['the black field’s mismatch', { black: { repeats: [[2]] } }, ['spectral:white', 'spectral:black']],
    ['one of their own where no black field was read', {}, ['spectral:white', 'spectral:black']],
  ])('black tiles of a checkerboard have %s', (_, change, mismatches) => {
    const { board, components } = layout({ ...ONE, board: { white: [900, 950], black: [5] }, ...change });
    const share = ({ at, share }: { at: number; share: number }) => [components[at]?.id, share];
    expect(components.flatMap(({ id }) => (id.startsWith('spectral') ? [id] : []))).toEqual(mismatches);
    expect(board?.white.spectral.map(share)).toEqual([['spectral:white', 1]]);
    expect(board?.black.spectral.map(share)).toEqual([['spectral:black', 1]]);
    // Both are read in one range: no step between ranges bears on their contrast.
    expect([board?.white.field.name, board?.black.field.name]).toEqual(['white tile', 'black tile']);
    expect([board?.white.linearity, board?.black.linearity]).toEqual([-1, -1]);
  });

  it.each<[string, number | number[], string[]]>([
    ['one range', 10, ['digits:x10', 'digits:x10']],
    ['two ranges', [10, 0.1], ['digits:x10', 'digits:x0.1']],
  ])('the digits of the ambient reading are those of its own range at each point: %s', (_, range, ids) => {
    const white = { repeats: [[1000, 900]] };
    const { ambientDigits, components } = layout({ ...ONE, white, ambient: { value: 0, range } });
    expect(ambientDigits.map((at) => components[at]?.id)).toEqual(ids);
  });

  it('an offset of the ambient reading is taken away with its calibration factor (on paper: 1.1 × 3 m²)', () => {
    const lumensPerLux = (calibration?: number) => {
      const { components, outputs } = got(
        runModel({ ...EXACT, ambient: { value: 0, half: 0, range: 10, calibration } }),
      );
      return outputs[0]!.sensitivities[components.findIndex(({ id }) => id === 'digits:x10')];
    };
    expect(lumensPerLux(1.1)).toBeCloseTo(-3.3, 12);
    expect(lumensPerLux()).toBeCloseTo(-3, 12);
  });

  it('ambient light point by point counts with its mean, and each point with its own (by hand)', () => {
    const input: RunInput = {
      ...ONE,
      white: { repeats: [[1000, 900]] },
      ambient: { value: [10, 40], half: 1 },
    };
    // (950 − 25) lx × 3 m²; 860 ÷ 990.
    const { outputs, layout, components } = got(runModel(input));
    expect(outputs.find(({ id }) => id === 'white')?.value).toBeCloseTo(2775, 9);
    expect(outputs.find(({ id }) => id === 'uniformity')?.value).toBeCloseTo(860 / 990, 12);
    expect(components[layout.ambient]?.value).toBe(25);
  });
});
