import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import { type Answer, spotAnswers } from '../capture/answers';
import { cellOf, columnOf } from '../run/cell';
import { lastLook } from '../store/lastlook';
import { perStore } from '../store/perstore';
import type { Trouble } from '../store/trouble';
import type { Store } from '../store/type';

/** A spot check as the pane shows it. */
export interface SpotResult {
  readonly sheet: string;
  readonly units: number;
  /** Units with a white reading, the brightest first. */
  readonly answers: readonly Answer[];
  /** "the first unit", "the brightest unit": what counts as 100 %. */
  readonly reference: string;
}

export interface SpotResults {
  /** Of the spot check in front; undefined where another sheet is. */
  readonly result: ReadonlySignal<SpotResult | undefined>;
  readonly trouble: ReadonlySignal<Trouble | undefined>;
}

/** The answers of spot checks, which follow the sheet. */
export const spotResultsOf = perStore(({ host, workbook, front }: Store): SpotResults => {
  const result = signal<SpotResult | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  const shown = computed(() => {
    return front.isOf('spot') ? front.sheet.value?.sheet : undefined;
  });
  const look = lastLook((sheet: string) => host.read(sheet), {
    what: 'Reading the spot check',
    trouble,
    isKept: true,
    take: (reading) => {
      result.value = reading && resultOf(reading);
    },
  });
  effect(() => {
    const sheet = shown.value;
    // Every look at the workbook is one at this sheet as well.
    if (workbook.survey.value && sheet !== undefined) void look(sheet);
    else result.value = undefined;
  });
  return { result, trouble };
});

function resultOf(reading: SheetReading): SpotResult {
  return {
    sheet: reading.sheet,
    units: columnOf(reading, 'SpotUnits').length,
    answers: spotAnswers(reading),
    reference: cellOf(reading, 'SpotReference') === 'best' ? 'the brightest unit' : 'the first unit',
  };
}
