import type { SheetReading } from '../../src/excel/host';
import type { CellName } from '../../src/sheets/names/all';
import { SETUP_FIELDS, type SetupField } from '../../src/sheets/setup/fields';
import type { SetupPath } from '../../src/sheets/setup/path';
import type { Expectation } from '../parse/quantity';
import { expected, labelOf, perCent } from '../setup/ask';
import { cellOf } from './cell';
import type { CauseShare } from './contributors';

/** A cell of the sheet that makes a cause smaller once it is known. */
export interface CauseField {
  readonly name: CellName;
  readonly label: string;
  readonly expect: Expectation;
  /** What is typed there, as a person types it; undefined while a cautious value counts. */
  readonly typed: number | undefined;
  /** What the cell takes of a number that was typed: a part of 1 for per cent. */
  toCell(typed: number): number;
}

/** Which fields of the set-up bear on a cause. What has none is bettered by readings and not by a figure. */
const PATHS: Readonly<Partial<Record<CauseShare['cause'], readonly SetupPath[]>>> = {
  meter: ['uncertainty.ofReading', 'uncertainty.digits', 'uncertainty.linearity'],
  spectral: [
    'uncertainty.f1',
    'uncertainty.spectral.white',
    'uncertainty.spectral.red',
    'uncertainty.spectral.green',
    'uncertainty.spectral.blue',
  ],
  place: ['uncertainty.throwDistance', 'uncertainty.sensorHeight', 'uncertainty.f2', 'uncertainty.placing'],
  points: ['uncertainty.repeatability'],
  room: ['uncertainty.room'],
  image: ['uncertainty.width', 'uncertainty.height', 'uncertainty.square'],
  ambient: ['uncertainty.ambient'],
  screen: ['uncertainty.gain'],
  other: ['uncertainty.other'],
};

/** The fields of a cause that the sheet has cells for. */
export function causeFields(cause: CauseShare['cause'], reading: SheetReading): CauseField[] {
  return (PATHS[cause] ?? []).flatMap((path): CauseField[] => {
    const field: SetupField = SETUP_FIELDS[path];
    if (field.kind !== 'number' || !field.name || !reading.values[field.name]) return [];
    const isPart = field.unit === '%';
    const value = cellOf(reading, field.name);
    return [
      {
        name: field.name,
        label: labelOf(field),
        expect: expected(field, { lengthUnit: 'm' }),
        typed: typeof value !== 'number' ? undefined : isPart ? perCent(value) : value,
        toCell: (typed) => (isPart ? typed / 100 : typed),
      },
    ];
  });
}
