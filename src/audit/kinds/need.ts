import { bad, chain, good, missing } from '../../photometry/outcome';
import { need } from '../../procurement/need/need';
import { taskContrast, VIEWING_TASKS } from '../../procurement/need/tasks';
import { TENDER_PARTS, type TenderPart } from '../../procurement/wording/tender';
import { cellName, cellsOf, rectOf } from '../../sheets/address';
import { NEED_COLUMNS, NEED_VERSION, needPlan } from '../../sheets/need';
import type { Plan, Role } from '../../sheets/plan';
import { type SheetView, valueAt } from '../view';
import {
  cellNamed,
  cellsNamed,
  keptPlans,
  type LineAt,
  linesOf,
  numberAt,
  placeInTable,
  tableArea,
  tableLines,
  textAt,
} from './cells';
import type { KindAudit, Origin, Recomputed, Unknown } from './kind';
import { type OwnLabel, resultCells, wordsNamed } from './results';

const kept = keptPlans();
const TABLE = ['Rooms', 'RoomWhite', 'Agreement', 'RoomColour'] as const;

function planOf(view: SheetView): Plan | Unknown {
  const lines = linesOf(view, TABLE);
  if (lines < 1) return { why: 'Its names no longer tell how many rooms it has.' };
  const isWorded = TENDER_PARTS.some((part) => view.places.has(`tender${part}`.toLowerCase()));
  return kept(`${lines} ${isWorded}`, () => {
    const wording = Object.fromEntries(TENDER_PARTS.map((part) => [part, ''])) as Record<TenderPart, string>;
    return needPlan({ rooms: [], spare: lines, ...(isWorded ? { wording } : {}) }, 'expected');
  });
}

/** What a line asks for; `scale` sizes the image and the ambient light otherwise. */
function needOf(view: SheetView, at: LineAt, scale = { area: 1, ambient: 1 }) {
  const number = (key: string) => numberAt(view, at(key));
  const task = VIEWING_TASKS.find((each) => each === textAt(view, at('task')));
  const contrast = number('contrast') ?? (task && taskContrast(task).contrast);
  const figures = ['width', 'height', 'gain', 'ambient', 'ageing', 'mode'].map(number);
  if (contrast === undefined || figures.some((figure) => figure === undefined)) {
    return bad(missing(textAt(view, at('room')), 'Figures of the room are missing.'));
  }
  const [width, height, gain, ambient, ageing, mode] = figures as number[];
  const [ownContrast, luminance] = [number('own'), number('luminance')];
  return need({
    area: width! * height! * scale.area,
    gain: gain!,
    ambient: ambient! * scale.ambient,
    contrast,
    ...(ownContrast === undefined ? {} : { ownContrast }),
    ...(luminance === undefined ? {} : { luminance }),
    ageing: ageing!,
    mode: mode!,
  });
}

function recomputeLine(view: SheetView, at: LineAt): [string, Recomputed][] {
  if (textAt(view, at('room')) === '') {
    return ['white', 'plain', 'colour', 'governs', 'atEnd', 'reached'].map((key) => [at(key), good('')]);
  }
  const found = needOf(view, at);
  const white = chain(found, (room) => good(room.white));
  const part = numberAt(view, at('part'));
  return [
    [at('white'), white],
    [at('plain'), white],
    [
      at('colour'),
      part === undefined
        ? bad(missing('part', 'The part of colour is missing.'))
        : chain(white, (lumens) => good(lumens * part)),
    ],
    [at('governs'), chain(found, ({ governs }) => good(governs === 'luminance' ? 'luminance' : 'contrast'))],
    [at('atEnd'), chain(found, ({ atEnd }) => good(atEnd.luminance))],
    [
      at('reached'),
      chain(found, ({ atEnd: { contrast } }) =>
        contrast === undefined ? bad(missing('contrast', 'In full darkness.')) : good(contrast),
      ),
    ],
  ];
}

const FACTORS = [0.5, 0.75, 1, 1.25, 1.5];

/** The table of other light and other images, of the line that is asked for. */
function recomputeWhatIf(view: SheetView, plan: Plan, lines: readonly LineAt[]): [string, Recomputed][] {
  const at = lines[(numberAt(view, cellNamed(plan, 'WhatIfRoom')) ?? 0) - 1];
  const grid = cellsNamed(plan, 'WhatIf');
  if (!at || textAt(view, at('room')) === '') return [];
  return grid.map((cell, i) => {
    const scale = { area: FACTORS[i % 5]!, ambient: FACTORS[Math.floor(i / 5)]! };
    return [cell, chain(needOf(view, at, scale), ({ white }) => good(white))];
  });
}

/** Count and largest of some lines; empty where no line has a figure. */
function recomputeTotals(plan: Plan, lines: readonly LineAt[], found: ReadonlyMap<string, Recomputed>) {
  const figures = (key: string) =>
    lines.flatMap((at) => {
      const outcome = found.get(at(key));
      return outcome?.ok && typeof outcome.value === 'number' ? [outcome.value] : [];
    });
  const largest = (key: string) => {
    const list = figures(key);
    return good(list.length === 0 ? '' : Math.max(...list));
  };
  return [
    [cellNamed(plan, 'RoomCount'), good(figures('plain').length)],
    [cellNamed(plan, 'LargestWhite'), largest('plain')],
    [cellNamed(plan, 'LargestColour'), largest('colour')],
  ] as [string, Recomputed][];
}

/** The figures of the "what if" table with its head row and column, added up. */
function recomputeSum(
  view: SheetView,
  plan: Plan,
  grid: readonly [string, Recomputed][],
): [string, Recomputed][] {
  if (grid.length === 0 || grid.some(([, outcome]) => !outcome.ok)) return [];
  const { row } = rectOf(cellNamed(plan, 'WhatIf'));
  const heads = [...cellsOf(`A${row + 1}:A${row + 5}`), ...cellsOf(`B${row}:F${row}`)];
  const numbers = heads.map((at) => numberAt(view, at) ?? 0);
  const sum = [...grid.map(([, outcome]) => (outcome.ok ? Number(outcome.value) : 0)), ...numbers].reduce(
    (a, b) => a + b,
    0,
  );
  return [
    [`B${row + 6}`, good(sum)],
    [`D${row + 6}`, good(sum)],
  ];
}

/** A figure of the table of what would be, by the light and the image it is for. */
function ownLabel(view: SheetView, plan: Plan): OwnLabel {
  const top = rectOf(cellNamed(plan, 'WhatIf')).row - 1;
  const shown = (at: string) => {
    const value = valueAt(view, at);
    return typeof value === 'number' ? Number(value.toPrecision(4)) : 'open';
  };
  return (at, name) => {
    if (!name.startsWith('WhatIf[')) return undefined;
    const { row, column } = rectOf(at);
    const [ambient, area] = [shown(cellName(row, 0)), shown(cellName(top, column))];
    return `${wordsNamed(plan, 'WhatIf')}, ambient ${ambient} lx, image ${area} m²`;
  };
}

/** What is said of a room, and what stands in for what is not. */
function origin(view: SheetView, plan: Plan, at: string): Origin | undefined {
  const place = placeInTable(plan, 'Rooms', NEED_COLUMNS, at);
  if (!place || !isTyped(place.column.role)) return undefined;
  const { line, column } = place;
  const [room, ofTask] = [textAt(view, line('room')), taskSource(textAt(view, line('task')))];
  if (room === '') return undefined;
  if (column.key === 'task' && ofTask) return { source: `chosen for “${room}”; ${ofTask}` };
  if (valueAt(view, at) !== null) return { source: `set for “${room}” on this sheet` };
  if (column.key === 'contrast' && ofTask) return { source: `no own wish for “${room}”; ${ofTask}` };
  return { source: `not set for “${room}”` };
}

const isTyped = (role: Role) => role === 'input' || role === 'choice';

/** `“basic decision making” asks for 15 : 1; AVIXA, …`. */
function taskSource(text: string): string | undefined {
  const task = VIEWING_TASKS.find((each) => each === text);
  if (!task) return undefined;
  const { contrast, source } = taskContrast(task);
  return `“${task}” asks for ${contrast} : 1; ${source}`;
}

export const NEED: KindAudit = {
  version: NEED_VERSION,
  plan: planOf,
  origin,
  lines: (plan) => tableArea(plan, 'Rooms', NEED_COLUMNS.length),
  results: (view, plan) => resultCells(view, plan, ['WhatIf'], ownLabel(view, plan)),
  recompute: (view, plan) => {
    const lines = tableLines(plan, 'Rooms', NEED_COLUMNS);
    const found = new Map(lines.flatMap((at) => recomputeLine(view, at)));
    const grid = recomputeWhatIf(view, plan, lines);
    const totals = recomputeTotals(plan, lines, found);
    for (const [at, value] of [...totals, ...grid, ...recomputeSum(view, plan, grid)]) found.set(at, value);
    return found;
  },
};
