import { GAIN, IMAGE_METRES } from '../../src/photometry/bounds';
import { defaultRoom } from '../../src/sheets/need';
import type { Expectation } from '../parse/quantity';

/** Fields of a room that are numbers. */
export type RoomNumber =
  | 'width'
  | 'height'
  | 'diagonal'
  | 'ambient'
  | 'contrast'
  | 'ownContrast'
  | 'luminance'
  | 'gain'
  | 'ageing'
  | 'mode'
  | 'colourPart';
export type RoomField = RoomNumber | 'room' | 'known' | 'aspect' | 'task';

/** What stands in the fields of a room. */
export type RoomTexts = Readonly<Record<RoomField, string>>;

export interface RoomSpec {
  readonly label: string;
  readonly hint: string;
  readonly expect: Expectation;
}

const part = (what: string): Expectation => ({ what, unit: '%', min: 1, max: 100 });

/** Bounds are those of the sheet, or narrower where a slip of the unit would pass them. */
export const ROOM_NUMBERS: Readonly<Record<RoomNumber, RoomSpec>> = {
  width: {
    label: 'Image width, m',
    hint: '',
    expect: { what: 'image width', unit: 'm', ...IMAGE_METRES },
  },
  height: {
    label: 'Image height, m',
    hint: '',
    expect: { what: 'image height', unit: 'm', ...IMAGE_METRES },
  },
  diagonal: {
    label: 'Image diagonal, m',
    hint: '',
    expect: { what: 'image diagonal', unit: 'm', ...IMAGE_METRES },
  },
  ambient: {
    label: 'Room light on the screen, lx',
    hint: 'A meter flat on the screen, projector dark, lamps and blinds as in use.',
    expect: { what: 'room light', unit: 'lx', moreThan: 0, max: 200_000 },
  },
  contrast: {
    label: 'Own wish for contrast, to 1',
    hint: 'Empty: the task decides.',
    expect: { what: 'contrast', unit: '', moreThan: 1, max: 1_000_000 },
  },
  ownContrast: {
    label: 'Projector’s own contrast, to 1',
    hint: 'In a dark room. Empty: taken as unlimited.',
    expect: { what: 'projector’s own contrast', unit: '', moreThan: 1, max: 10_000_000 },
  },
  luminance: {
    label: 'Wanted luminance, cd/m²',
    hint: 'Of white. Empty: contrast alone decides.',
    expect: { what: 'wanted luminance', unit: '', moreThan: 0, max: 100_000 },
  },
  gain: {
    label: 'Screen gain',
    hint: '1 for matt white.',
    expect: { what: 'screen gain', unit: '', ...GAIN },
  },
  ageing: {
    label: 'Left after ageing, %',
    hint: 'Of the light, at the end of the planned use.',
    expect: part('what is left after ageing'),
  },
  mode: {
    label: 'Daily mode, %',
    hint: 'What it gives of the rated mode.',
    expect: part('daily mode'),
  },
  colourPart: {
    label: 'Colour, % of white',
    hint: '100 unless you have a reason.',
    expect: part('colour as a part of white'),
  },
};

const percent = (fraction: number) => String(Number((fraction * 100).toPrecision(6)));

/** A new room. Its size and light stay empty: a default there would be a silently wrong need. */
export function startRoom(): RoomTexts {
  const { gain, task, ageing, mode, colourPart } = defaultRoom();
  return {
    room: '',
    known: 'width and height',
    width: '',
    height: '',
    diagonal: '',
    aspect: '16:10',
    ambient: '',
    task,
    contrast: '',
    ownContrast: '',
    luminance: '',
    gain: String(gain),
    ageing: percent(ageing),
    mode: percent(mode),
    colourPart: percent(colourPart),
  };
}
