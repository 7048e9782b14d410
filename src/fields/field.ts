import { tilePrimary } from '../photometry/tiles';
import { boardMarks } from './board';
import { gridMarks } from './grid';
import { greyOf, LEVELS } from './levels';
import { BLACK, fill, type Mark, type Rgb, type Size, WHITE } from './mark';
import { tiles } from './split';

/** What the projector is given to show while it is set up and measured. Ids stand in addresses and messages. */
export type FieldId =
  | 'grid'
  | 'levels'
  | 'ambient'
  | 'white'
  | 'red'
  | 'green'
  | 'blue'
  | 'pattern-a'
  | 'pattern-b'
  | 'pattern-c'
  | 'black'
  | 'board'
  | 'board-inverse';

export interface TestField {
  readonly id: FieldId;
  readonly title: string;
  /** The key that shows it, as `KeyboardEvent.key` in lower case. */
  readonly key: string;
  /** What it is for and what it is made of, in a sentence or two. */
  readonly about: string;
  /** The field at a size. Together the marks cover every pixel. */
  marks(size: Size): Mark[];
}

const COLOUR = { red: [255, 0, 0], green: [0, 255, 0], blue: [0, 0, 255] } as const satisfies Record<
  string,
  Rgb
>;

function solid(id: FieldId, title: string, key: string, colour: Rgb, why: string): TestField {
  return {
    id,
    title,
    key,
    about: `${why} ${colour.join(', ')} everywhere.`,
    marks: (size) => [fill(size, colour)],
  };
}

function pattern(id: FieldId, letter: string, number: number): TestField {
  return {
    id,
    title: `Pattern ${letter}`,
    key: String(number + 1),
    about:
      'Nine tiles of red, green and blue. Over the three patterns each tile shows each primary once, while the picture stays equally bright.',
    marks: (size) => tiles(size, 3, 3, (row, column) => COLOUR[tilePrimary(number, row, column)]),
  };
}

/** Every field, in the order in which a run needs them. */
export const TEST_FIELDS: readonly TestField[] = [
  {
    id: 'grid',
    title: 'Focus and geometry',
    key: '7',
    about:
      'Outermost pixels as a frame, square cells, and one-pixel lines at the nine points: even lines everywhere mean that focus and resolution are right, bands mean that something scales the picture.',
    marks: gridMarks,
  },
  {
    id: 'levels',
    title: 'Black and white levels',
    key: '6',
    about:
      'Upper row 0, 5, 10, 15 % from the left, lower row 85, 90, 95, 100 %. Set brightness and contrast so that all eight can be told apart.',
    marks: (size) => tiles(size, 2, 4, (row, column) => greyOf(LEVELS[row]![column]!)),
  },
  solid(
    'ambient',
    'Ambient',
    '0',
    BLACK,
    'For the reading with the projector’s light blocked, which a black picture alone does not do.',
  ),
  solid('white', 'White', 'w', WHITE, 'White light output, and drift at the end.'),
  solid('red', 'Red', 'r', COLOUR.red, 'Red light output.'),
  solid('green', 'Green', 'g', COLOUR.green, 'Green light output.'),
  solid('blue', 'Blue', 'b', COLOUR.blue, 'Blue light output.'),
  pattern('pattern-a', 'A', 0),
  pattern('pattern-b', 'B', 1),
  pattern('pattern-c', 'C', 2),
  solid('black', 'Black', 'k', BLACK, 'Sequential contrast.'),
  {
    id: 'board',
    title: 'Checkerboard',
    key: '4',
    about: 'Contrast within one picture. 4 × 4 tiles, white at the top left.',
    marks: (size) => boardMarks(size, 'white'),
  },
  {
    id: 'board-inverse',
    title: 'Checkerboard, inverse',
    key: '5',
    about: 'The same with black at the top left.',
    marks: (size) => boardMarks(size, 'black'),
  },
];

/** Whether a text names a field. */
export function isFieldId(text: unknown): text is FieldId {
  return TEST_FIELDS.some(({ id }) => id === text);
}

export function testField(id: FieldId): TestField {
  return TEST_FIELDS.find((field) => field.id === id)!;
}

/** The field so many steps on, from the last to the first and back. */
export function stepFrom(id: FieldId, steps: number): FieldId {
  const count = TEST_FIELDS.length;
  const at = TEST_FIELDS.findIndex((field) => field.id === id) + steps;
  return TEST_FIELDS[((at % count) + count) % count]!.id;
}
