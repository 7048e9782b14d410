import { expect, it } from 'vitest';
import { need } from '../../src/procurement/need/need';
import { taskContrast, VIEWING_TASKS } from '../../src/procurement/need/tasks';
import { tender } from '../../src/procurement/wording/tender';
import { cellsOf } from '../../src/sheets/address';
import { defaultRoom, needPlan, type RoomSetup } from '../../src/sheets/need';
import { bookOf } from '../../src/sheets/realize';
import { writeXlsx } from '../../src/xlsx/write';
import { createPaneHost } from '../excel/host';
import { recalculate } from '../tools/libreoffice';
import { random } from './randomrun';

/** Invented reading rooms of a regional library network. */
function rooms(count: number): RoomSetup[] {
  const draw = random(77);
  const known = <T>(value: T) => (draw() < 0.5 ? value : undefined);
  return Array.from({ length: count }, (_, i) => ({
    ...defaultRoom(`Reading room ${i + 1} (invented)`),
    width: 1.5 + draw() * 2,
    height: 1 + draw(),
    gain: 0.8 + draw() * 0.5,
    ambient: 5 + draw() * 150,
    task: VIEWING_TASKS[Math.floor(draw() * VIEWING_TASKS.length)]!,
    contrast: known(5 + draw() * 40),
    ownContrast: known(12 + draw() * 400),
    luminance: known(40 + draw() * 200),
    ageing: 0.6 + draw() * 0.3,
    mode: 0.7 + draw() * 0.3,
    colourPart: 1,
  }));
}

const wording = tender({
  white: 3210,
  colour: 3210,
  standard: 'ISO/IEC 21118:2020, Annex B',
  fraction: 0.8,
  rule: 'no guard band',
});
const ROOMS = rooms(40);
const plan = needPlan({ rooms: ROOMS, spare: 5, ...(wording.ok ? { wording: wording.value } : {}) }, 'n1');
const column = (name: string) => cellsOf(plan.names.find((n) => n.name === name)!.range);

/** What the pure room says: a number, or that it cannot be. */
function expected(room: RoomSetup): number | string {
  const { ownContrast, luminance } = room;
  const contrast = room.contrast ?? taskContrast(room.task).contrast;
  const outcome = need({
    area: room.width * room.height,
    gain: room.gain,
    ambient: room.ambient!,
    contrast,
    ...(ownContrast === undefined ? {} : { ownContrast }),
    ...(luminance === undefined ? {} : { luminance }),
    ageing: room.ageing,
    mode: room.mode,
  });
  return outcome.ok ? outcome.value.white : 'cannot be reached';
}

it('LibreOffice recalculates every room’s need to what the formulas of the domain give', async () => {
  const [book] = await recalculate([await writeXlsx(bookOf([plan]), { cachedValues: false })]);
  const cells = book!.sheets[0]!.cells;
  const whites = column('RoomWhite');
  ROOMS.forEach((room, i) => {
    const [came, want] = [cells[whites[i]!]?.value, expected(room)];
    if (typeof want === 'string') expect(came, room.room).toBe(want);
    else expect((came as number) / want, room.room).toBeCloseTo(1, 9);
  });
  expect(whites.slice(ROOMS.length).map((at) => cells[at]?.value || null)).toEqual(Array(5).fill(null));
  expect(ROOMS.some((room) => typeof expected(room) === 'string')).toBe(true);
});

it('functions and plain formulas agree in the embedded engine, the what-if table too', async () => {
  const { host, test } = await createPaneHost();
  const { sheet } = await host.build(plan);
  await test.engine.calculation.settled();
  const { values } = await host.read(sheet);
  const agreement = values.Agreement!.values.flat();
  const wanted = ROOMS.map((room) => (typeof expected(room) === 'string' ? '' : 'agree'));
  expect(agreement.slice(0, ROOMS.length).map((cell) => cell ?? '')).toEqual(wanted);
  expect(values.WhatIfAgreement!.values).toEqual([['agree']]);
});

it('a room worked by hand', () => {
  // 2 m², 15:1 in 50 lx, own contrast 400, half in reserve: 14·50 ÷ (1 − 15 ÷ 400) = 727.27 lx; × 2 ÷ 0.5 = 2909.1 lm.
  const room = {
    ...defaultRoom('x'),
    width: 2,
    height: 1,
    ambient: 50,
    ownContrast: 400,
    ageing: 0.5,
    mode: 1,
  };
  expect(expected(room)).toBeCloseTo(2909.09, 2);
});
