import type { SheetReading } from '../../src/excel/host';
import { METER_STATEMENTS, RULES } from '../../src/metrology/words';
import { BUDGET_IDS, BUDGET_RESULT, type BudgetId } from '../../src/sheets/run/budgetid';
import { columnOf } from './cell';

/** What a person can do something about; every row of a budget belongs to one. */
type Cause =
  | 'meter'
  | 'spectral'
  | 'points'
  | 'place'
  | 'image'
  | 'ambient'
  | 'room'
  | 'drift'
  | 'screen'
  | 'other';

/** How much of a result's variance one cause holds, 0 to 1. */
export interface CauseShare {
  readonly cause: Cause;
  readonly words: string;
  readonly share: number;
  /** A cautious value stands in for at least one of its rows. */
  readonly isAssumed: boolean;
}

export interface Contributors {
  readonly id: BudgetId;
  readonly label: string;
  /** Largest first; causes without any share are left out. */
  readonly causes: readonly CauseShare[];
  readonly advice: string;
}

const CAUSES: readonly {
  readonly cause: Cause;
  readonly words: string;
  /** Beginnings of the labels in the budgets and of the entries they rest on. */
  readonly rows: readonly string[];
  /** What would make it smaller, and, where the value was assumed, what would do so before any new measurement. */
  readonly help: string;
  readonly find: string;
}[] = [
  {
    cause: 'meter',
    words: 'The meter',
    rows: ['Meter, ± of reading', 'Meter, ± digits', 'Linearity'],
    help: 'a better meter, or a calibration of this one',
    find: 'knowing the meter: its data sheet\u2019s ± % and ± digits',
  },
  {
    cause: 'spectral',
    words: 'Meter and colour of the light',
    rows: ['Spectral mismatch', 'Mismatch of white', 'Meter, f1′'],
    help: 'a spectral correction of the meter for this light source',
    find: 'saying the meter\u2019s f1′, and on the sheet the kind of light source',
  },
  {
    cause: 'points',
    words: 'Scatter of the readings',
    rows: ['Display step', 'Repeatability', 'Scatter of one reading', 'Degrees of freedom, repeatability'],
    help: 'reading each point more often',
    find: 'reading each point twice or more, so that the scatter is known',
  },
  {
    cause: 'place',
    words: 'Where the meter is held',
    rows: [
      'Sensor in front of the screen',
      'Oblique light on the sensor',
      'Meter, cosine f2',
      'Placing of the meter',
    ],
    help: 'holding the meter flat on the screen, exactly at the points',
    find: 'saying how far the lens is from the screen and the sensor in front of it, and the meter\u2019s f2',
  },
  {
    cause: 'image',
    words: 'Size of the image',
    rows: ['Image width', 'Image height', 'Image size', 'Image not square'],
    help: 'measuring the image\u2019s edges more closely, and squaring it',
    find: 'saying how well the image\u2019s width, height and squareness are known',
  },
  {
    cause: 'ambient',
    words: 'Ambient light',
    rows: ['Ambient'],
    help: 'a darker room, or ambient light measured more closely',
    find: 'measuring the ambient light',
  },
  {
    cause: 'room',
    words: 'Light the room sends back',
    rows: ['Light the room sends back'],
    help: 'a dark room: cloth over light walls, nobody in light clothes near',
    find: 'saying how much the room sends back: next to nothing where it is dark all over',
  },
  {
    cause: 'drift',
    words: 'Drift over the run',
    rows: ['Drift'],
    help: 'a longer warm-up and a quicker run',
    find: 'reading the centre again at the end',
  },
  {
    cause: 'screen',
    words: 'Gain of the screen',
    rows: ['Screen gain'],
    help: 'knowing the screen\u2019s gain more closely, or a luminance meter',
    find: 'knowing how sure the screen\u2019s gain is: its data sheet',
  },
  {
    cause: 'other',
    words: 'Another cause',
    rows: ['Another cause'],
    help: 'the cause of your own that you added',
    find: 'the cause of your own that you added',
  },
];

/** What the sheet assumed, row by row, in its own words. */
export interface Assumption {
  readonly label: string;
  readonly words: string;
}

export function assumptionsOf(reading: SheetReading): Assumption[] {
  const labels = columnOf(reading, 'CauseLabels');
  return columnOf(reading, 'CauseStatus').flatMap((status, i) =>
    typeof status === 'string' && status.startsWith('assumed: ')
      ? [{ label: String(labels[i] ?? ''), words: status.slice('assumed: '.length) }]
      : [],
  );
}

/** Largest contributors of each result whose budget is complete. */
export function contributorsOf(reading: SheetReading): Contributors[] {
  const assumed = assumptionsOf(reading).map(({ label }) => label);
  return BUDGET_IDS.flatMap((id) => {
    const shares = columnOf(reading, `${id}Shares`);
    if (shares.length === 0 || !shares.every((share) => typeof share === 'number')) return [];
    const labels = columnOf(reading, `${id}Components`).map(String);
    const causes = groupShares(labels, shares as number[], assumed);
    const isNormal = columnOf(reading, 'MeterStatement')[0] === METER_STATEMENTS[1];
    const advice = [adviceOf(causes), rectangleWords(labels, shares as number[], isNormal)];
    return [{ id, label: BUDGET_RESULT[id].label, causes, advice: advice.join(' ').trim() }];
  });
}

/**
 * What is to be said of a sum that one bound rules: it is no normal distribution, and U with k = 2 is too wide.
 * @param isNormal whether the meter's percentage is a certificate's U and no bound
 */
export function rectangleWords(
  labels: readonly string[],
  shares: readonly number[],
  isNormal: boolean,
): string {
  const most = Math.max(...shares);
  const label = labels[shares.indexOf(most)] ?? '';
  const isBound = !/^(Repeatability|Scatter)/.test(label) && !(isNormal && /^Meter, \u00b1 of/.test(label));
  if (most < RULES || !isBound) return '';
  return `One bound, \u201c${label}\u201d, makes ${Math.round(100 * most)} % of the variance: U with k = 2 is then up to 17 % too wide. The simulation tells the interval as it is.`;
}

/** Rows of a budget gathered into causes, the largest first. */
export function groupShares(
  labels: readonly string[],
  shares: readonly number[],
  assumed: readonly string[] = [],
): CauseShare[] {
  return CAUSES.flatMap(({ cause, words, rows }) => {
    const belongs = (label: string) => rows.some((row) => label.startsWith(row));
    const share = labels.reduce((sum, label, i) => sum + (belongs(label) ? shares[i]! : 0), 0);
    const isAssumed = assumed.some((entry) => belongs(entry) && bearsOn(entry, labels.filter(belongs)));
    return share > 0 ? [{ cause, words, share, isAssumed }] : [];
  }).sort((a, b) => b.share - a.share);
}

/** An entry for one colour, "Spectral mismatch, red ±", bears only on budgets that have a row of that colour. */
function bearsOn(entry: string, labels: readonly string[]): boolean {
  const field = /, (white|red|green|blue|black)( tiles)?/.exec(entry)?.[0];
  return field === undefined || labels.some((label) => label.endsWith(field));
}

/** A cause with less than this part of the variance is not worth work: gone, it would take 5 % off U. */
const SLIGHT = 0.1;
/** Two causes this near to each other in variance count as equally large. */
const NEAR = 1.5;

/** What would help most, in one sentence. */
export function adviceOf(causes: readonly CauseShare[]): string {
  const [first, second] = causes;
  if (!first) return 'Nothing is uncertain by what was entered.';
  const lead = `What would help most: ${remedy(first)}`;
  if (second && second.share * NEAR >= first.share) return `${lead}; and as much, ${remedy(second)}.`;
  const share = (cause: Cause) => causes.find((one) => one.cause === cause)?.share ?? 0;
  const idle = (
    [
      ['points', 'more readings'],
      ['meter', 'another meter'],
    ] as const
  ).find(([cause]) => cause !== first.cause && share(cause) < SLIGHT);
  return idle ? `${lead}, not ${idle[1]}.` : `${lead}.`;
}

function remedy({ cause, isAssumed }: CauseShare): string {
  const { help, find } = CAUSES.find((one) => one.cause === cause)!;
  return isAssumed ? find : help;
}
