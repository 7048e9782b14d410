import type { SheetReading } from '../../src/excel/host';
import type { CellName } from '../../src/sheets/names/all';
import { columnOf } from '../run/cell';
import { resultsOf } from '../run/results';
import { sureOf } from '../run/sure';

/** What the readings came to, as the sheet has it: what a person in the dark wants to know at the end. */
export interface Answer {
  readonly label: string;
  /** "(1250 ± 290) lm", "103 %". */
  readonly text: string;
  /** What was decided, "pass", where there is a limit. */
  readonly decision: string;
}

/** The figures a run is measured for. */
const MAIN: readonly CellName[] = ['WhiteLightOutput', 'ColourLightOutput', 'ColourToWhite'];

/** Results of a run that are there; none while readings are missing. */
export function runAnswers(reading: SheetReading): Answer[] {
  const { figures, decisions } = sureOf(reading);
  return resultsOf(reading).flatMap(({ name, label, unit, text, value }): Answer[] => {
    if (value === undefined || !MAIN.includes(name)) return [];
    const decided = decisions.find(({ id }) => `${id}LightOutput` === name);
    return [
      {
        label,
        text: figures[name]?.text ?? [text, unit].filter(Boolean).join(' '),
        decision: decided?.verdict ?? '',
      },
    ];
  });
}

/**
 * The units of a spot check, the brightest first, in per cent of the one that the sheet takes for 100 %; colour beside
 * white where it was read.
 */
export function spotAnswers(reading: SheetReading): Answer[] {
  const [white, colour] = [columnOf(reading, 'WhiteRelative'), columnOf(reading, 'ColourRelative')];
  const share = (value: number) => `${Math.round(100 * value)} %`;
  return columnOf(reading, 'SpotUnits')
    .flatMap((unit, i) => {
      const [bright, coloured] = [white[i], colour[i]];
      if (typeof bright !== 'number') return [];
      const beside = typeof coloured === 'number' ? `, colour ${share(coloured)}` : '';
      const label = String(unit ?? '').trim() || `unit ${i + 1}`;
      return [{ bright, label, text: `white ${share(bright)}${beside}`, decision: '' }];
    })
    .sort((a, b) => b.bright - a.bright)
    .map(({ bright: _, ...answer }) => answer);
}
