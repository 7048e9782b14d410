import { imageSize } from '../../src/photometry/image';
import { type Need, need } from '../../src/procurement/need/need';
import { taskContrast, type ViewingTask } from '../../src/procurement/need/tasks';
import type { RoomSetup } from '../../src/sheets/need';
import { objectionOf, type Reads } from '../form/field';
import { numbersIn, readAll, unfitIn } from '../form/read';
import { aspectOf } from '../parse/aspect';
import { isByDiagonal, ROOM, type RoomField, type RoomTexts } from './fields';

/** A room as far as it is understood. */
export interface UnderstoodRoom {
  readonly setup?: RoomSetup;
  readonly need?: Need;
  /** Why the room cannot be served although every field is fit. */
  readonly objection?: string;
}

/** A room nobody has begun to describe: it does not count. */
export function isBlankRoom({ room, width, height, diagonal, ambient }: RoomTexts): boolean {
  return [room, width, height, diagonal, ambient].every((text) => text.trim() === '');
}

/** Texts → the room and what it needs; nothing while a field wants another look. */
export function understandRoom(texts: RoomTexts, reads = readAll(ROOM, texts)): UnderstoodRoom {
  if (unfitIn(reads).length > 0) return {};
  const setup = setupOf(texts, reads);
  const { width, height, task, room: _room, ...rest } = setup;
  const found = need({
    ...rest,
    area: width * height,
    ambient: reads.ambient.value!,
    contrast: setup.contrast ?? taskContrast(task).contrast,
  });
  return found.ok ? { setup, need: found.value } : { setup, objection: objectionOf(found) };
}

/** To a tenth of a millimetre: nobody knows an image better, and the sheet stays readable. */
const tidy = (metres: number) => Number(metres.toFixed(4));

/** Called with every field fit. */
function setupOf(texts: RoomTexts, reads: Reads<RoomField>): RoomSetup {
  const value = (id: RoomField) => reads[id].value!;
  return {
    room: texts.room.trim(),
    ...sizeOf(texts, reads),
    gain: value('gain'),
    ambient: value('ambient'),
    task: texts.task as ViewingTask,
    ...numbersIn(reads, ['contrast', 'ownContrast', 'luminance']),
    ageing: value('ageing') / 100,
    mode: value('mode') / 100,
    colourPart: value('colourPart') / 100,
  };
}

function sizeOf(texts: RoomTexts, { width, height, diagonal }: Reads<RoomField>) {
  const aspect = aspectOf(texts.aspect);
  if (!isByDiagonal(texts) || !aspect.ok) return { width: width.value!, height: height.value! };
  const size = imageSize('diagonal', diagonal.value!, aspect.value);
  if (!size.ok) throw new Error('A checked diagonal and aspect have no size');
  return { width: tidy(size.value.width), height: tidy(size.value.height) };
}
