import type { OverviewLine } from './view';

/** What to do next in this workbook: in words, and on which sheet. */
export interface Next {
  readonly text: string;
  readonly sheet: string;
}

/**
 * The next thing to do, of what the sheets tell: what was begun is finished first, then what failed is looked at,
 * then what is empty is begun, then the purchase goes on to its next step. Undefined where nothing is open.
 * @param lines in the order of the tabs
 */
export function nextOf(lines: readonly OverviewLine[]): Next | undefined {
  const at = (line: OverviewLine, text: string): Next => ({ text, sheet: line.sheet });
  const find = (is: (line: OverviewLine) => boolean) => lines.filter(is).at(-1);
  const readings = (line: OverviewLine) => ['run', 'spot check', 'batch'].includes(line.kind);

  const begun = find((line) => readings(line) && line.tone === 'open' && line.progress !== '');
  if (begun) return at(begun, `Go on with “${begun.sheet}”: ${begun.progress} are there`);
  const rejected = find((line) => line.kind === 'acceptance' && line.outcome === 'bad');
  if (rejected) return at(rejected, `See why “${rejected.sheet}” is rejected`);
  const empty = find((line) => readings(line) && line.tone === 'none');
  if (empty) return at(empty, `Begin the readings of “${empty.sheet}”`);
  const unfinished = find((line) => line.tone === 'open' && line.progress !== '');
  if (unfinished) return at(unfinished, `Go on with “${unfinished.sheet}”: ${unfinished.progress} are there`);
  const last = (kind: string) => find((line) => line.kind === kind);
  const [need, offers, complete] = [
    last('need'),
    last('offers'),
    find((line) => line.kind === 'run' && line.tone === 'good'),
  ];
  if (need && !offers) return at(need, 'List the offers against the need');
  if (offers && !last('acceptance') && !last('batch') && !last('run'))
    return at(offers, 'Draw the sample of the delivery');
  if (complete && !last('certificate')) return at(complete, `Make the certificate of “${complete.sheet}”`);
  return undefined;
}
