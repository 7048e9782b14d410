import { imageSize, parseAspect } from '../../src/photometry/image';
import { type Need, need } from '../../src/procurement/need/need';
import { taskContrast, VIEWING_TASKS, type ViewingTask } from '../../src/procurement/need/tasks';
import type { RoomSetup } from '../../src/sheets/need';
import type { DecimalMark } from '../parse/number';
import { type ReadNumber, readNumber } from '../parse/readnumber';
import { ROOM_NUMBERS, type RoomField, type RoomNumber, type RoomTexts } from './fields';

export type Marks = Readonly<Partial<Record<RoomNumber, DecimalMark>>>;

/** A room as far as it is understood. */
export interface UnderstoodRoom {
  readonly numbers: Readonly<Record<RoomNumber, ReadNumber>>;
  /** Problems of the fields that are not numbers. */
  readonly texts: Readonly<Partial<Record<RoomField, string>>>;
  /** How many fields want another look. */
  readonly open: number;
  readonly setup?: RoomSetup;
  readonly need?: Need;
  /** Why the room cannot be served although every field is fit. */
  readonly objection?: string;
}

const NEEDED = {
  width: 'The image width is needed.',
  height: 'The image height is needed.',
  diagonal: 'The image diagonal is needed.',
  ambient: 'The room light is needed: contrast cannot be judged without it.',
  gain: 'The screen gain is needed.',
  ageing: 'A reserve for ageing is needed; 100 for none.',
  mode: 'A part for the daily mode is needed; 100 for the rated mode.',
  colourPart: 'A part for colour is needed.',
} as const;

const ROOM_MAX = 80;

export function isByDiagonal({ known }: RoomTexts): boolean {
  return known === 'diagonal';
}

/** A room nobody has begun to describe: it does not count. */
export function isBlankRoom({ room, width, height, diagonal, ambient }: RoomTexts): boolean {
  return [room, width, height, diagonal, ambient].every((text) => text.trim() === '');
}

/** Texts → the room and what it needs, or what is wrong with which field. */
export function understandRoom(room: RoomTexts, marks: Marks = {}): UnderstoodRoom {
  const asked = (id: RoomNumber) =>
    id === 'diagonal' ? isByDiagonal(room) : id === 'width' || id === 'height' ? !isByDiagonal(room) : true;
  const numbers = Object.fromEntries(
    Object.entries(ROOM_NUMBERS).map(([key, { expect }]) => {
      const id = key as RoomNumber;
      if (!asked(id)) return [id, {}];
      const read = readNumber(room[id], expect, marks[id]);
      const isMissing = id in NEEDED && room[id].trim() === '';
      return [id, isMissing ? { problem: NEEDED[id as keyof typeof NEEDED] } : read];
    }),
  ) as Record<RoomNumber, ReadNumber>;
  const texts = textProblems(room);
  const open =
    Object.keys(texts).length +
    Object.values(numbers).filter(({ problem, question }) => problem || question).length;
  if (open > 0) return { numbers, texts, open };
  const setup = setupOf(room, (id) => numbers[id].value);
  const found = need({
    area: setup.width * setup.height,
    gain: setup.gain,
    ambient: setup.ambient!,
    contrast: setup.contrast ?? taskContrast(setup.task).contrast,
    ...(setup.ownContrast === undefined ? {} : { ownContrast: setup.ownContrast }),
    ...(setup.luminance === undefined ? {} : { luminance: setup.luminance }),
    ageing: setup.ageing,
    mode: setup.mode,
    colourPart: setup.colourPart,
  });
  return found.ok
    ? { numbers, texts, open, setup, need: found.value }
    : { numbers, texts, open, setup, objection: found.problems.map(({ message }) => message).join(' ') };
}

function textProblems(room: RoomTexts): Partial<Record<RoomField, string>> {
  const problems: Partial<Record<RoomField, string>> = {};
  if (room.room.trim() === '') problems.room = 'The room needs a name.';
  else if (room.room.trim().length > ROOM_MAX) problems.room = `At most ${ROOM_MAX} characters.`;
  if (!isTask(room.task)) problems.task = `\u201c${room.task}\u201d is none of these: choose one.`;
  if (isByDiagonal(room)) {
    const aspect = aspectOf(room);
    if (!aspect.ok) problems.aspect = aspect.problems[0]!.message;
  }
  return problems;
}

/** Whether a text is one of the viewing tasks; a sheet may hold another. */
export function isTask(text: string): text is ViewingTask {
  return VIEWING_TASKS.some((task) => task === text);
}

function aspectOf({ aspect }: RoomTexts) {
  return parseAspect(aspect.replace(/(\d),(\d)/g, '$1.$2'));
}

/** To a tenth of a millimetre: nobody knows an image better, and the sheet stays readable. */
const tidy = (metres: number) => Number(metres.toFixed(4));

/** Called with every field fit. */
function setupOf(room: RoomTexts, value: (id: RoomNumber) => number | undefined): RoomSetup {
  const optional = (id: 'contrast' | 'ownContrast' | 'luminance') => {
    const found = value(id);
    return found === undefined ? {} : { [id]: found };
  };
  return {
    room: room.room.trim(),
    ...sizeOf(room, value),
    gain: value('gain')!,
    ambient: value('ambient')!,
    task: room.task as ViewingTask,
    ...optional('contrast'),
    ...optional('ownContrast'),
    ...optional('luminance'),
    ageing: value('ageing')! / 100,
    mode: value('mode')! / 100,
    colourPart: value('colourPart')! / 100,
  };
}

function sizeOf(room: RoomTexts, value: (id: RoomNumber) => number | undefined) {
  const aspect = aspectOf(room);
  if (!isByDiagonal(room) || !aspect.ok) return { width: value('width')!, height: value('height')! };
  const size = imageSize('diagonal', value('diagonal')!, aspect.value);
  if (!size.ok) throw new Error('A checked diagonal and aspect have no size');
  return { width: tidy(size.value.width), height: tidy(size.value.height) };
}
