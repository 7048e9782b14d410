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
  const units = columnOf(reading, 'SpotUnits').map((unit, i) => String(unit ?? '').trim() || `unit ${i + 1}`);
  const [white, colour] = [columnOf(reading, 'WhiteRelative'), columnOf(reading, 'ColourRelative')];
  const share = (value: unknown) => (typeof value === 'number' ? `${Math.round(100 * value)} %` : '');
  return units
    .map((label, i) => ({ label, white: white[i], colour: colour[i] }))
    .filter((unit): unit is typeof unit & { white: number } => typeof unit.white === 'number')
    .sort((a, b) => b.white - a.white)
    .map((unit) => ({
      label: unit.label,
      text: [
        `white ${share(unit.white)}`,
        unit.colour === undefined || share(unit.colour) === '' ? '' : `colour ${share(unit.colour)}`,
      ]
        .filter(Boolean)
        .join(', '),
      decision: '',
    }));
}
