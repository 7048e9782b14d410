import { GAIN, IMAGE_METRES } from '../../src/photometry/bounds';
import { taskContrast, VIEWING_TASKS, type ViewingTask } from '../../src/procurement/need/tasks';
import { defaultRoom } from '../../src/sheets/need';
import { type FieldTable, problemOf, type Texts } from '../form/field';
import { aspectOf } from '../parse/aspect';
import type { Expectation } from '../parse/quantity';
import { perCent } from '../setup/ask';

export type RoomField =
  | 'room'
  | 'known'
  | 'width'
  | 'height'
  | 'diagonal'
  | 'aspect'
  | 'ambient'
  | 'task'
  | 'ageing'
  | 'mode'
  | 'colourPart'
  | 'gain'
  | 'luminance'
  | 'contrast'
  | 'ownContrast';
export type RoomTexts = Texts<RoomField>;

const ROOM_MAX = 80;
const USUAL = defaultRoom();
const part = (what: string): Expectation => ({ what, unit: '%', min: 1, max: 100 });
const length = (what: string): Expectation => ({ what, unit: 'm', ...IMAGE_METRES });

export const isByDiagonal = ({ known }: RoomTexts) => known === 'diagonal';
const isBySides = (texts: RoomTexts) => !isByDiagonal(texts);

/** Whether a text is one of the viewing tasks; a sheet may hold another. */
function isTask(text: string): text is ViewingTask {
  return VIEWING_TASKS.some((task) => task === text);
}

/**
 * Bounds are those of the sheet, or narrower where a slip of the unit would pass them. Size and light stay empty at
 * first: a default there would be a silently wrong need.
 */
export const ROOM: FieldTable<RoomField> = {
  room: { kind: 'text', label: 'Name of the room', max: ROOM_MAX, needed: 'The room needs a name.' },
  known: {
    kind: 'choice',
    label: 'Image measured by',
    start: 'width and height',
    choices: [
      ['width and height', 'width and height'],
      ['diagonal', 'diagonal and aspect ratio'],
    ],
  },
  width: {
    kind: 'number',
    label: 'Image width, m',
    expect: length('image width'),
    needed: 'The image width is needed.',
    applies: isBySides,
  },
  height: {
    kind: 'number',
    label: 'Image height, m',
    expect: length('image height'),
    needed: 'The image height is needed.',
    applies: isBySides,
  },
  diagonal: {
    kind: 'number',
    label: 'Image diagonal, m',
    expect: length('image diagonal'),
    needed: 'The image diagonal is needed.',
    applies: isByDiagonal,
  },
  aspect: {
    kind: 'text',
    label: 'Aspect ratio',
    hint: '16:10, 16:9, 4:3 …',
    start: '16:10',
    applies: isByDiagonal,
    check: (text) => problemOf(aspectOf(text)),
  },
  ambient: {
    kind: 'number',
    label: 'Room light on the screen, lx',
    hint: 'A meter flat on the screen, projector dark, lamps and blinds as in use.',
    expect: { what: 'room light', unit: 'lx', moreThan: 0, max: 200_000 },
    needed: 'The room light is needed: contrast cannot be judged without it.',
  },
  task: {
    kind: 'choice',
    label: 'What people do with the picture',
    hint: ({ task }) => (isTask(task) ? taskWords(task) : ''),
    start: USUAL.task,
    choices: VIEWING_TASKS.map((task) => [task, task]),
    check: (text) => (isTask(text) ? undefined : { problem: `“${text}” is none of these: choose one.` }),
  },
  ageing: {
    kind: 'number',
    label: 'Left after ageing, %',
    hint: 'Of the light, at the end of the planned use.',
    start: String(perCent(USUAL.ageing)),
    expect: part('what is left after ageing'),
    needed: 'A reserve for ageing is needed; 100 for none.',
  },
  mode: {
    kind: 'number',
    label: 'Daily mode, %',
    hint: 'What it gives of the rated mode.',
    start: String(perCent(USUAL.mode)),
    expect: part('daily mode'),
    needed: 'A part for the daily mode is needed; 100 for the rated mode.',
  },
  colourPart: {
    kind: 'number',
    label: 'Colour, % of white',
    hint: '100 unless you have a reason.',
    start: String(perCent(USUAL.colourPart)),
    expect: part('colour as a part of white'),
    needed: 'A part for colour is needed.',
  },
  gain: {
    kind: 'number',
    label: 'Screen gain',
    hint: '1 for matt white.',
    start: String(USUAL.gain),
    expect: { what: 'screen gain', unit: '', ...GAIN },
    needed: 'The screen gain is needed.',
  },
  luminance: {
    kind: 'number',
    label: 'Wanted luminance, cd/m²',
    hint: 'Of white. Empty: contrast alone decides.',
    expect: { what: 'wanted luminance', unit: '', moreThan: 0, max: 100_000 },
  },
  contrast: {
    kind: 'number',
    label: 'Own wish for contrast, to 1',
    hint: 'Empty: the task decides.',
    expect: { what: 'contrast', unit: '', moreThan: 1, max: 1_000_000 },
  },
  ownContrast: {
    kind: 'number',
    label: 'Projector’s own contrast, to 1',
    hint: 'In a dark room. Empty: taken as unlimited.',
    expect: { what: 'projector’s own contrast', unit: '', moreThan: 1, max: 10_000_000 },
  },
};

function taskWords(task: ViewingTask): string {
  const { contrast, meaning } = taskContrast(task);
  return `${contrast} to 1: ${meaning}.`;
}
