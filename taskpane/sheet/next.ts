import type { KnownSheet } from '../../src/excel/host';
import type { SheetKind } from '../../src/sheets/plan';
import type { OverviewLine } from '../overview/view';

/** What can come next with a sheet: what is done, in the words of its button, and why. */
export interface NextThing {
  readonly id: Deed;
  readonly text: string;
  readonly note?: string;
  /** Another sheet that it leads to. */
  readonly to?: string;
}

export type Deed =
  | 'capture'
  | 'certificate'
  | 'comparison'
  | 'full run'
  | 'offers'
  | 'choose'
  | 'lot'
  | 'batch'
  | 'link'
  | 'link into'
  | 'failing'
  | 'ageing'
  | 'seal'
  | 'go';

export interface Facts {
  readonly sheets: readonly Pick<KnownSheet, 'sheet' | 'kind'>[];
  readonly isSealed: boolean;
  /** The chosen offer of an offers sheet. */
  readonly chosen: string;
  /** Serial of the first unit of a lot that does not conform. */
  readonly failing: string;
  /** The run sheet that bears it, where there is one. */
  readonly failingRun?: string | undefined;
  /** Of a batch: the lot that its results are linked into. */
  readonly linkedLot?: string | undefined;
}

type Line = Pick<OverviewLine, 'sheet' | 'tone' | 'progress' | 'outcome'>;

/** The one next thing with a sheet; undefined where nothing is left to do there. */
export function nextOn(kind: SheetKind, line: Line, facts: Facts): NextThing | undefined {
  const { sheets, isSealed } = facts;
  if (isSealed) return undefined;
  const first = (wanted: SheetKind) => sheets.find((one) => one.kind === wanted)?.sheet;
  const seal: NextThing = {
    id: 'seal',
    text: 'Seal it',
    note: 'A seal shows later whether anything was changed.',
  };
  const isComplete = line.tone === 'good';
  switch (kind) {
    case 'run': {
      if (!isComplete) return { id: 'capture', text: 'Take readings' };
      if (!first('certificate'))
        return { id: 'certificate', text: 'Make the certificate', note: 'One page to print and sign.' };
      const runs = sheets.filter((one) => one.kind === 'run').length;
      if (runs > 1 && !first('comparison'))
        return {
          id: 'comparison',
          text: `Compare the ${runs} runs`,
          note: 'Which of them differ beyond their doubt.',
        };
      return seal;
    }
    case 'spot':
      if (!isComplete) return { id: 'capture', text: 'Take readings' };
      return {
        id: 'full run',
        text: 'Measure the brightest in full',
        note: 'A run tells lumens; its form opens with the unit and the meter filled in.',
      };
    case 'batch': {
      const lot = first('acceptance');
      if (!isComplete) return { id: 'capture', text: 'Take readings' };
      if (facts.linkedLot)
        return {
          id: 'go',
          text: `Go on to “${facts.linkedLot}”`,
          note: 'The results of this batch are linked there.',
          to: facts.linkedLot,
        };
      if (lot) return { id: 'link into', text: `Link the results into “${lot}”`, to: lot };
      return seal;
    }
    case 'need': {
      const offers = first('offers');
      return offers
        ? { id: 'go', text: `Go on to “${offers}”`, to: offers }
        : {
            id: 'offers',
            text: 'List the offers against this need',
            note: 'The figures asked for are filled in.',
          };
    }
    case 'offers': {
      if (line.tone === 'none') return { id: 'offers', text: 'Type or import the offers' };
      if (facts.chosen === '') return { id: 'choose', text: 'Choose one of the offers' };
      const lot = first('acceptance');
      return lot
        ? { id: 'go', text: `Go on to “${lot}”`, to: lot }
        : {
            id: 'lot',
            text: 'Draw the sample of the delivery',
            note: `Its limits follow the offer chosen, “${facts.chosen}”.`,
          };
    }
    case 'acceptance': {
      if (line.outcome === 'bad' && facts.failing !== '') {
        const note = 'A unit that does not conform is measured in full before anybody is told.';
        return facts.failingRun
          ? {
              id: 'go',
              text: `Go to “${facts.failingRun}”, the run of ${facts.failing}`,
              note,
              to: facts.failingRun,
            }
          : { id: 'failing', text: `Open ${facts.failing} as a run`, note };
      }
      if (isComplete) return seal;
      // A run in a workbook is as often one of before the delivery; a unit drawn can still be linked from it.
      return first('batch') || (first('run') && line.tone !== 'none')
        ? { id: 'link', text: 'Link the results' }
        : {
            id: 'batch',
            text: 'Make the batch of the units drawn',
            note: 'Their serial numbers and limits are filled in.',
          };
    }
    case 'ageing':
      return {
        id: 'ageing',
        text: 'Add a measurement',
        note: 'The sheet’s own are taken over into the form.',
      };
    case 'comparison':
    case 'certificate':
      return isComplete ? seal : undefined;
    default:
      return undefined;
  }
}
