import { type CellWrite, HostError, type HostTrouble, type SheetPlace } from '../../../src/excel/host';
import type { CellValue } from '../../../src/sheets/book';
import { FakeHost } from '../fakehost';

/** What becomes of one call that writes cells. */
export type Fate =
  /** Done, but no answer ever comes. */
  | 'unanswered'
  /** Done, but an error is answered. */
  | 'done with error'
  /** Done and answered only when `free` is called. */
  | 'held';

/** A spreadsheet program that may be busy, may wait behind an open cell, and may lose an answer. */
export class UnsureHost extends FakeHost {
  /** Of the next calls, in turn; the ones after that are answered as usual. */
  readonly fates: Fate[] = [];
  /** Every cell that was really written: "Run 1 WhiteReadings/0/0 = 412". */
  readonly written: string[] = [];
  /** While set, every call is refused with it and does nothing. */
  refuses: HostTrouble | undefined;
  private readonly stuck: (() => void)[] = [];

  /** Lets the held calls through. */
  free(): void {
    for (const go of this.stuck.splice(0)) go();
  }

  override async survey() {
    this.refuse();
    return super.survey();
  }

  override async readCells(...args: Parameters<FakeHost['readCells']>) {
    this.refuse();
    return super.readCells(...args);
  }

  override async writeCells(
    place: SheetPlace | string,
    cells: readonly CellWrite[],
  ): Promise<readonly CellValue[]> {
    this.refuse();
    const fate = this.fates.shift();
    if (fate === 'held') await new Promise<void>((resolve) => this.stuck.push(resolve));
    const before = await super.writeCells(place, cells);
    const sheet = typeof place === 'string' ? place : place.sheet;
    for (const { name, row, column, value } of cells)
      this.written.push(`${sheet} ${name}/${row}/${column} = ${value}`);
    if (fate === 'unanswered') return new Promise(() => undefined);
    if (fate === 'done with error')
      throw new HostError('unknown', 'The spreadsheet program reported an error.', 'Try again.');
    return before;
  }

  private refuse(): void {
    if (!this.refuses) return;
    this.calls.push(`refused ${this.refuses}`);
    throw new HostError(this.refuses, `Refused: ${this.refuses}.`, 'Wait.');
  }
}
