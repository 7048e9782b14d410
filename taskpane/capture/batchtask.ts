import type { CellPlace, CellsByName, Host, SheetPlace } from '../../src/excel/host';
import { CENTRE, GRID_NAMES, NINE_POINTS } from '../../src/photometry/points';
import { type BatchReadings, countOf, fieldsOf, pointsOf, SAYS } from '../../src/procurement/batch/columns';
import { SETUP_NAMES } from '../../src/sheets/batch/names';
import { batchSetupOf } from '../../src/sheets/batch/setupof';
import type { CellValue } from '../../src/sheets/book';
import type { CellName } from '../../src/sheets/names/all';
import { meterOf, placeIf, textAt } from './cells';
import { type Group, type Step, stepKey, type Task } from './task';

/** So many readings are handed to the window at once: what goes between windows is bounded, a batch is not. */
const MOST_STEPS = 400;

/** A batch → the readings of some units, row after row: those among which the first that is not complete stands. */
export async function batchTask(host: Host, { sheet, id }: SheetPlace): Promise<Task> {
  const values = await host.readNamed(sheet, [...SETUP_NAMES, 'Serials', 'UnitState', 'UnitDecision']);
  const setup = batchSetupOf(values);
  const { readings } = setup;
  const states = values.UnitState?.values.map(([state]) => String(state ?? '')) ?? [];
  const isOpen = (line: number) => states[line] !== SAYS.complete;
  const size = Math.max(1, Math.floor(MOST_STEPS / countOf(readings)));
  const first = setup.units.findIndex((unit, line) => unit.serial !== '' && isOpen(line));
  const from = Math.floor(Math.max(0, first) / size) * size;
  const lines = setup.units
    .slice(from, from + size)
    .flatMap(({ serial }, i) => (serial === '' ? [] : [{ serial, line: from + i }]));
  const ambient = ambientPlaces(setup.ambient, lines);
  const places = [
    ...ambient.flatMap(({ at, rangeAt }) => [at, rangeAt]),
    ...lines.flatMap(({ line }) => [rangeOf(line), ...placesOf(readings, line)]),
  ];
  const found = new Map(
    (await host.readCells({ sheet, id }, places)).map((value, i) => [stepKey(places[i]!), value] as const),
  );
  return {
    kind: 'batch',
    sheet,
    id,
    about: [textAt(values, 'Batch') || sheet, textAt(values, 'PictureMode')].filter(Boolean).join(', '),
    ...meterOf(values),
    groups: [
      ...ambient.slice(0, setup.ambient === 'once' ? 1 : 0).map((one) => ambientGroup(one, found)),
      ...lines.flatMap(({ serial, line }, turn) => [
        ...unitGroups(readings, serial, line, found),
        // In the range that the unit's white has chosen.
        ...(setup.ambient === 'by row' ? [ambientGroup(ambient[turn]!, found, serial)] : []),
      ]),
    ],
    cells: placeIf(values, 'unit', 'MeterUnit'),
    mode: textAt(values, 'PictureMode'),
    answers: answersOf(values),
  };
}

/** How far the batch is, and how many of its units do not pass. */
function answersOf({ Serials, UnitState, UnitDecision }: CellsByName): Task['answers'] {
  const column = (named: CellsByName[CellName]) => named?.values.map(([cell]) => String(cell ?? '')) ?? [];
  const units = column(Serials).filter(Boolean).length;
  const done = column(UnitState).filter((state) => state === SAYS.complete).length;
  const failing = column(UnitDecision).filter((decision) => /fail/.test(decision)).length;
  if (done === 0) return [];
  return [
    { label: 'Units complete', text: `${done} of ${units}`, decision: '' },
    { label: 'Fail or conditional fail', text: String(failing), decision: '' },
  ];
}

type Found = ReadonlyMap<string, CellValue>;

const rangeOf = (line: number): CellPlace => ({ name: 'RangeFactors', row: line, column: 0 });
const placesOf = (readings: BatchReadings, line: number): CellPlace[] =>
  Array.from({ length: countOf(readings) }, (_, column) => ({ name: 'Readings', row: line, column }));

interface AmbientPlaces {
  readonly at: CellPlace;
  readonly rangeAt: CellPlace;
}

/** Ambient light read once has a range factor of its own; that of a row has the row's. */
function ambientPlaces(
  ambient: 'once' | 'by row' | 'none',
  lines: readonly { readonly line: number }[],
): AmbientPlaces[] {
  const at = (row: number): CellPlace => ({ name: 'AmbientReadings', row, column: 0 });
  if (ambient === 'none') return [];
  if (ambient === 'once') return [{ at: at(0), rangeAt: { name: 'AmbientRange', row: 0, column: 0 } }];
  return lines.map(({ line }) => ({ at: at(line), rangeAt: rangeOf(line) }));
}

function factorOf(found: Found, at: CellPlace): number {
  const factor = found.get(stepKey(at));
  return typeof factor === 'number' && factor > 0 ? factor : 1;
}

function ambientGroup({ at, rangeAt }: AmbientPlaces, found: Found, serial = ''): Group {
  const light = 'ambient' as const;
  const id = stepKey(at);
  const { u, v, number } = NINE_POINTS[CENTRE]!;
  return {
    id,
    label: [serial, light].filter(Boolean).join(', '),
    rows: 1,
    columns: 1,
    intro:
      'Block the projector’s light, by its shutter or a lid before the lens: a black picture still glows.',
    hasOneRange: false,
    oneRangeFor: 'each unit',
    isLast: false,
    steps: [
      {
        key: id,
        group: id,
        label: [serial, light].filter(Boolean).join(', '),
        point: 'anywhere',
        number,
        word: 'point',
        at,
        rangeAt,
        isRangeShared: serial !== '',
        field: light,
        light,
        peers: light,
        isAnywhere: true,
        u,
        v,
        zero: 'reading',
        value: found.get(id) ?? null,
        factor: factorOf(found, rangeAt),
      },
    ],
  };
}

/** The fields of one unit; the sheet has one range factor for the whole row. */
function unitGroups(readings: BatchReadings, serial: string, line: number, found: Found): Group[] {
  const count = pointsOf(readings);
  const rangeAt = rangeOf(line);
  const points = count === 1 ? [NINE_POINTS[CENTRE]!] : NINE_POINTS;
  return fieldsOf(readings).map((light, i): Group => {
    const id = `unit ${line + 1}, ${light}`;
    const label = `${serial}, ${light}`;
    return {
      id,
      label,
      rows: count === 1 ? 1 : 3,
      columns: count === 1 ? 1 : 3,
      ...(i === 0 ? { intro: `${serial} now: same place, same size of image. Let it warm up first.` } : {}),
      hasOneRange: true,
      oneRangeFor: 'each unit',
      isLast: false,
      steps: points.map((point, k): Step => {
        const at: CellPlace = { name: 'Readings', row: line, column: i * count + k };
        return {
          key: stepKey(at),
          group: id,
          label,
          point: count === 1 ? 'centre' : GRID_NAMES[k]!,
          number: point.number,
          word: 'point',
          at,
          rangeAt,
          // White chooses the range; the colours are read in it.
          isRangeShared: i > 0,
          field: light,
          light,
          peers: `${line} ${light}`,
          isAnywhere: false,
          u: point.u,
          v: point.v,
          zero: 'missing',
          value: found.get(stepKey(at)) ?? null,
          factor: factorOf(found, rangeAt),
        };
      }),
    };
  });
}
