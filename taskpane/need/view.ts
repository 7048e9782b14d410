import type { SheetReading } from '../../src/excel/host';
import { TENDER_PARTS, type TenderPart } from '../../src/procurement/wording/tender';
import type { CellName } from '../../src/sheets/names/all';
import { stemOf } from '../../src/sheets/names/stem';
import { cellOf, columnOf } from '../run/cell';
import { askedFigure, asText, type Words } from './wording';

/** A need sheet as its card shows it. */
export interface NeedView {
  readonly sheet: string;
  readonly rooms: readonly RoomLine[];
  /** The largest needs as the sheet computes them, lm. */
  readonly white?: number;
  readonly colour?: number;
  /** Lines where the function and the plain formula came to different figures. */
  readonly differing: number;
  /** The words of the sheet; undefined where it was built without. */
  readonly text: string | undefined;
  /** True where the words no longer name the largest needs of the sheet. */
  readonly isStale: boolean;
}

interface RoomLine {
  readonly room: string;
  /** Lumens, or what the sheet says instead. */
  readonly white: number | string;
  readonly colour?: number;
}

/** The sheet-scoped name of a paragraph. */
export function nameOf(part: TenderPart): `Tender${Capitalize<TenderPart>}` {
  return `Tender${stemOf(part)}`;
}

/** Reading → card. */
export function needView(reading: SheetReading): NeedView {
  const [whites, colours] = [columnOf(reading, 'RoomWhite'), columnOf(reading, 'RoomColour')];
  const rooms = columnOf(reading, 'Rooms').flatMap((room, i): RoomLine[] => {
    if (room === null || room === '') return [];
    const [white, colour] = [whites[i], colours[i]];
    return [
      {
        room: String(room),
        white: typeof white === 'number' ? white : wordsOf(white),
        ...(typeof colour === 'number' ? { colour } : {}),
      },
    ];
  });
  const largest = (name: CellName) => {
    const found = cellOf(reading, name);
    return typeof found === 'number' ? found : undefined;
  };
  const [white, colour] = [largest('LargestWhite'), largest('LargestColour')];
  const words = wordsOn(reading);
  return {
    sheet: reading.sheet,
    rooms,
    ...(white === undefined ? {} : { white }),
    ...(colour === undefined ? {} : { colour }),
    differing: columnOf(reading, 'Agreement').filter((text) => text === 'differ').length,
    text: words && asText(words),
    isStale:
      words !== undefined &&
      white !== undefined &&
      colour !== undefined &&
      !(names(words.need, white) && names(words.need, colour)),
  };
}

function names(text: string, lumens: number): boolean {
  return text.includes(`${askedFigure(lumens)} lm`);
}

function wordsOf(value: unknown): string {
  if (typeof value === 'string' && value !== '') return value;
  return typeof value === 'object' && value !== null && 'error' in value
    ? String(value.error)
    : 'not computed yet';
}

/** The paragraphs as they stand on the sheet, edited or not. */
function wordsOn(reading: SheetReading): Words | undefined {
  if (!reading.values[nameOf('need')]) return undefined;
  return Object.fromEntries(
    TENDER_PARTS.map((part) => [part, String(cellOf(reading, nameOf(part)) ?? '')]),
  ) as Words;
}
