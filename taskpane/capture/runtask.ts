import type { SheetReading } from '../../src/excel/host';
import { BOARD_POINTS } from '../../src/fields/board';
import type { FieldId } from '../../src/fields/field';
import { CENTRE, CORNER_POINTS, NINE_POINTS, type Point } from '../../src/photometry/points';
import { tilePrimary } from '../../src/photometry/tiles';
import { NOTES } from '../../src/sheets/run/notes';
import { fieldsOf, type RunField } from '../run/fields';
import { runAnswers } from './answers';
import { cellAt, meterOf, placeIf, textAt } from './cells';
import { type Group, type Light, type Step, stepKey, type Task } from './task';

/** A run sheet → what there is to read, in the order of measuring. */
export function runTask(reading: SheetReading): Task {
  const { values, sheet, id } = reading;
  const [width, height] = [cellAt(values, 'ImageWidth'), cellAt(values, 'ImageHeight')];
  const fields = fieldsOf(reading);
  return {
    kind: 'run',
    sheet,
    id,
    about: [textAt(values, 'Projector'), textAt(values, 'PictureMode')].filter(Boolean).join(', '),
    ...meterOf(values),
    ...(typeof width === 'number' && typeof height === 'number' ? { image: { width, height } } : {}),
    groups: fields.map((field) => groupOf(field, reading)),
    cells: {
      ...placeIf(values, 'unit', 'MeterUnit'),
      ...placeIf(values, 'mode', 'PictureMode'),
      ...placeIf(values, 'notes', NOTES),
    },
    mode: textAt(values, 'PictureMode'),
    answers: runAnswers(reading),
  };
}

interface Kind {
  readonly field: FieldId;
  readonly light: Light;
}

const KINDS: Readonly<Record<string, Kind>> = {
  Ambient: { field: 'ambient', light: 'ambient' },
  White: { field: 'white', light: 'white' },
  Red: { field: 'red', light: 'red' },
  Green: { field: 'green', light: 'green' },
  Blue: { field: 'blue', light: 'blue' },
  Black: { field: 'black', light: 'black' },
  Corner: { field: 'white', light: 'white' },
  Last: { field: 'white', light: 'white' },
};

const PATTERNS = ['PatternA', 'PatternB', 'PatternC'];
const PATTERN_FIELDS: readonly FieldId[] = ['pattern-a', 'pattern-b', 'pattern-c'];

function groupOf(field: RunField, { values }: SheetReading): Group {
  const { stem } = field;
  const isBoard = stem === 'Board';
  const cells = values[field.name]!.values;
  const points = pointsOf(stem, cells.length * (cells[0]?.length ?? 0));
  const isTopLeftBlack = textAt(values, 'BoardTopLeft') === 'black';
  const steps = points.map((point, i): Step => {
    const [row, column] = [Math.floor(i / field.shape.columns), i % field.shape.columns];
    const at = { name: field.name, row, column };
    const rangeAt = { name: `${stem}Range` as const, row: isBoard ? 0 : row, column: isBoard ? 0 : column };
    const kind = isBoard ? boardKind(row, column, isTopLeftBlack) : kindAt(stem, row, column);
    return {
      key: stepKey(at),
      group: field.name,
      label: PATTERNS.includes(stem) ? `${field.label}, ${kind.light} tile` : field.label,
      point: field.shape.names[i]!,
      number: field.shape.first + i,
      word: field.shape.word,
      at,
      rangeAt,
      isRangeShared: field.repeat > 1,
      field: kind.field,
      light: kind.light,
      peers: isBoard ? `board ${kind.light}` : stem === 'Last' ? 'last' : kind.light,
      isAnywhere: stem === 'Ambient' && points.length === 1,
      u: point.u,
      v: point.v,
      zero: field.zero,
      value: cells[row]?.[column] ?? null,
      factor: factorAt(values, rangeAt),
    };
  });
  return {
    id: field.name,
    label: field.label,
    rows: field.shape.rows,
    columns: field.shape.columns,
    ...introOf(stem, field),
    hasOneRange: isBoard,
    isLast: stem === 'Last',
    steps,
  };
}

function pointsOf(stem: string, count: number): readonly Point[] {
  if (stem === 'Corner') return CORNER_POINTS;
  if (stem === 'Board') return BOARD_POINTS;
  return count === 1 ? [NINE_POINTS[CENTRE]!] : NINE_POINTS;
}

function kindAt(stem: string, row: number, column: number): Kind {
  const pattern = PATTERNS.indexOf(stem);
  if (pattern < 0) return KINDS[stem]!;
  return { field: PATTERN_FIELDS[pattern]!, light: tilePrimary(pattern, row, column) };
}

function boardKind(row: number, column: number, isTopLeftBlack: boolean): Kind {
  const isLikeTopLeft = (row + column) % 2 === 0;
  return {
    field: isTopLeftBlack ? 'board-inverse' : 'board',
    light: isLikeTopLeft === isTopLeftBlack ? 'black' : 'white',
  };
}

function factorAt(values: SheetReading['values'], { name, row, column }: Step['rangeAt']): number {
  const factor = values[name]?.values[row]?.[column];
  return typeof factor === 'number' && factor > 0 ? factor : 1;
}

function introOf(stem: string, { repeat }: RunField): { intro?: string } {
  if (stem === 'Ambient') {
    return {
      intro:
        'Block the projector’s light, by its shutter or a lid before the lens: a black picture still glows.',
    };
  }
  if (stem === 'Last') return { intro: 'The centre once more, in white: has the light drifted?' };
  return repeat > 1 ? { intro: 'The same points again, in the ranges of the first time.' } : {};
}
