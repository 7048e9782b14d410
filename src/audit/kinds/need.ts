import { taskContrast, VIEWING_TASKS } from '../../procurement/need/tasks';
import { TENDER_PARTS, type TenderPart } from '../../procurement/wording/tender';
import { cellName, rectOf } from '../../sheets/address';
import { NEED_COLUMNS, NEED_VERSION, needPlan } from '../../sheets/need';
import type { Plan, Role } from '../../sheets/plan';
import { type SheetView, valueAt } from '../view';
import { cellNamed, keptPlans, linesOf, placeInTable, tableArea, textAt } from './cells';
import type { KindAudit, Origin, Unknown } from './kind';
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
};
