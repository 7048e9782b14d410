import type { RawCell } from '../photometry/reading';
import type { CellName } from './names/all';
import type { ImageSetup } from './runsetup';

/**
 * The image's set-up, read back from a sheet's named cells.
 * @param one the value of a name, null where there is none
 * @param number a named number, or what stands for it where there is none
 * @param isFourSided whether the sheet has the cells of four sides and two diagonals
 */
export function imageOf(
  one: (name: CellName) => RawCell,
  number: (name: CellName, otherwise: number) => number,
  isFourSided: boolean,
): ImageSetup {
  const unit = (['m', 'cm', 'mm', 'ft', 'in'] as const).find((each) => each === one('LengthUnit')) ?? 'm';
  if (isFourSided) {
    return {
      shape: 'four sides',
      unit,
      top: number('SideTop', 1),
      right: number('SideRight', 1),
      bottom: number('SideBottom', 1),
      left: number('SideLeft', 1),
      falling: number('DiagonalFalling', 1),
      rising: number('DiagonalRising', 1),
    };
  }
  return {
    shape: 'rectangle',
    known: (['width', 'height', 'diagonal'] as const).find((each) => each === one('KnownLength')) ?? 'width',
    length: number('ImageLength', 1),
    unit,
    across: number('AspectAcross', 16),
    down: number('AspectDown', 9),
  };
}
