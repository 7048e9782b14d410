import { type Facts, type NextThing, nextOn } from '../sheet/next';
import type { OverviewLine } from './view';

/** What to do next in this workbook: in words, and on which sheet. */
export interface Next {
  readonly text: string;
  readonly sheet: string;
}

/** Deeds that a purchase needs; the rest can be done at any time. */
const NEEDED: ReadonlySet<NextThing['id']> = new Set<NextThing['id']>([
  'offers',
  'choose',
  'lot',
  'batch',
  'link',
  'certificate',
]);

/**
 * The next thing to do, of what the sheets tell: what was begun is finished first, then what failed is looked at,
 * then what is empty is begun, then the purchase goes on with what its sheets offer. Undefined where nothing is open.
 * @param lines in the order of the tabs
 */
export function nextOf(lines: readonly OverviewLine[]): Next | undefined {
  const at = (line: OverviewLine, text: string): Next => ({ text, sheet: line.sheet });
  const find = (is: (line: OverviewLine) => boolean) => lines.filter(is).at(-1);
  const readings = ({ of }: OverviewLine) => of === 'run' || of === 'spot' || of === 'batch';
  const begun = find((line) => readings(line) && line.tone === 'open' && line.progress !== '');
  if (begun) return at(begun, `Go on with “${begun.sheet}”: ${begun.progress} are there`);
  const rejected = find((line) => line.of === 'acceptance' && line.outcome === 'bad');
  if (rejected) return at(rejected, `See why “${rejected.sheet}” is rejected`);
  const empty = find((line) => readings(line) && line.tone === 'none');
  if (empty) return at(empty, `Begin the readings of “${empty.sheet}”`);
  const unfinished = find((line) => line.tone === 'open' && line.progress !== '');
  if (unfinished) return at(unfinished, `Go on with “${unfinished.sheet}”: ${unfinished.progress} are there`);
  for (const line of lines) {
    const thing = nextOn(line.of, line, factsOf(line, lines));
    if (thing && NEEDED.has(thing.id)) return at(line, thing.text);
  }
  return undefined;
}

function factsOf({ state, chosen }: OverviewLine, lines: readonly OverviewLine[]): Facts {
  return {
    sheets: lines.map(({ sheet, of }) => ({ sheet, kind: of })),
    isSealed: state === 'sealed',
    chosen,
    failing: '',
  };
}
