import { FEWEST_POINTS } from '../../procurement/ageing/points';
import type { CellName } from '../names/all';
import { every } from '../names/every';
import { REPEATS } from '../names/shared';
import type { SheetKind } from '../plan';
import type { Tally } from './tally';

/** A cell of a sheet: the first behind a name, or one further down. */
export interface CellSource {
  readonly name: CellName;
  readonly row?: number;
}
export type Source = CellSource | Tally;

/** A main result of a sheet, with its uncertainty and the decision on it where there are such. */
export interface FigureSpec {
  readonly label: string;
  readonly value: Source;
  readonly u?: CellSource;
  readonly decision?: CellSource;
  readonly format: string;
  /** True where the sheet gives figures as texts, as they are reported. */
  readonly isText?: true;
  /** True for counts that would mislead before the sheet is complete. */
  readonly isFinal?: true;
}

/** What the overview tells of a kind of sheet, by names its sheets have. What a sheet has not is left out. */
export interface Outline {
  readonly words: string;
  /** What the sheet is about: texts on it, or how many of what. */
  readonly about:
    | readonly CellName[]
    | { readonly tally: Tally; readonly one: string; readonly many: string };
  /** How far it is: done of all. */
  readonly done: Tally;
  readonly all: Tally;
  readonly figures: readonly FigureSpec[];
}

/** Light output that has no U yet is shown in whole lumens. */
const LUMENS = '[<10]0.0;#,##0';

const COLOURS = ['Red', 'Green', 'Blue'] as const;
const PATTERNS = ['PatternA', 'PatternB', 'PatternC'] as const;
const OTHERS = every(['Ambient', 'White', 'Black', 'Corner', 'Board'], ['Readings']);

/** Grids of a run that people fill in. Red, green and blue of tiled patterns are sorted from them by formulas. */
const FULL = [
  ...OTHERS,
  ...every(COLOURS, ['Readings']),
  'LastReading',
  ...every(['White', ...COLOURS], REPEATS),
] as const;
const TILED = [...OTHERS, ...PATTERNS, 'LastReading', ...every(['White', ...PATTERNS], REPEATS)] as const;

const SPOT_READINGS = every(['White', ...COLOURS], ['Readings']);

const METER_CHECK_READINGS = [
  ...every(['Repeat', 'Placed', 'Low', 'High', 'Dark', 'First', 'Second', 'Third', 'All'], ['Readings']),
  ...every(['Near', 'Far'], ['Readings', 'Hidden']),
] as const;

const run = (readings: readonly CellName[]): Outline => ({
  words: 'run',
  about: ['Projector', 'PictureMode', 'Place'],
  done: { count: 'numbers', names: readings },
  all: { count: 'cells', names: readings },
  figures: (['White', 'Colour'] as const).map((id) => ({
    label: `${id} light output, lm`,
    value: { name: `${id}LightOutputPlain` },
    u: { name: `${id}ExpandedPlain` },
    decision: { name: `${id}VerdictPlain` },
    format: LUMENS,
  })),
});
const [FULL_RUN, TILED_RUN] = [run(FULL), run(TILED)];

const OUTLINES: Readonly<Partial<Record<SheetKind, Outline>>> = {
  run: FULL_RUN,
  need: {
    words: 'need',
    about: { tally: { count: 'filled', name: 'Rooms' }, one: 'room', many: 'rooms' },
    done: { count: 'numbers', names: ['RoomWhite'] },
    all: { count: 'filled', name: 'Rooms' },
    figures: [
      { label: 'Largest white to ask for, lm', value: { name: 'LargestWhite' }, format: '#,##0' },
      { label: 'Largest colour to ask for, lm', value: { name: 'LargestColour' }, format: '#,##0' },
    ],
  },
  offers: {
    words: 'offers',
    about: { tally: { count: 'filled', name: 'Bidders' }, one: 'offer', many: 'offers' },
    done: { count: 'words', name: 'OfferState', words: ['meets', 'short'] },
    all: { count: 'filled', name: 'Bidders' },
    figures: [
      {
        label: 'Offers that meet the need',
        value: { count: 'words', name: 'OfferState', words: ['meets'] },
        format: '0',
      },
    ],
  },
  comparison: {
    words: 'comparison',
    about: { tally: { count: 'cells', names: ['RunNames'] }, one: 'run', many: 'runs' },
    done: { count: 'numbers', names: ['WhiteValues'] },
    all: { count: 'cells', names: ['WhiteValues'] },
    figures: (['White', 'Colour'] as const).map((id) => ({
      label: `Pairs that differ in ${id.toLowerCase()}`,
      value: { count: 'words', name: `${id}PairVerdicts`, words: ['different'] },
      format: '0',
      isFinal: true,
    })),
  },
  spot: {
    words: 'spot check',
    about: { tally: { count: 'cells', names: ['SpotUnits'] }, one: 'unit', many: 'units' },
    done: { count: 'numbers', names: SPOT_READINGS },
    all: { count: 'cells', names: SPOT_READINGS },
    figures: [],
  },
  metercheck: {
    words: 'meter check',
    about: ['Meter', 'Place'],
    done: { count: 'numbers', names: METER_CHECK_READINGS },
    all: { count: 'cells', names: METER_CHECK_READINGS },
    figures: [
      { label: 'Repeatability of one reading', value: { name: 'RepeatabilityPlain' }, format: '0.00 %' },
      { label: 'Linearity and range step ±', value: { name: 'LinearityPlain' }, format: '0.00 %' },
    ],
  },
  batch: {
    words: 'batch',
    about: ['Projector', 'PictureMode'],
    done: { count: 'value', name: 'UnitsComplete' },
    all: { count: 'value', name: 'UnitsListed' },
    figures: [
      { label: 'Units that pass', value: { name: 'UnitsPassing' }, format: '0' },
      { label: 'Units that fail', value: { name: 'UnitsFailing' }, format: '0' },
    ],
  },
  acceptance: {
    words: 'acceptance',
    about: ['Lot'],
    done: { count: 'value', name: 'Inspected' },
    all: { count: 'value', name: 'SampleSize' },
    figures: [
      {
        label: 'Units not conforming',
        value: { name: 'Nonconforming' },
        decision: { name: 'LotVerdict' },
        format: '0',
      },
    ],
  },
  certificate: {
    words: 'certificate',
    about: ['Projector', 'PictureMode'],
    done: { count: 'numbers', names: ['CertifiedMap'] },
    all: { count: 'cells', names: ['CertifiedMap'] },
    figures: (['White', 'Colour'] as const).map((id) => ({
      label: `${id} light output, lm, as reported`,
      value: { name: `Certified${id}` },
      u: { name: `Certified${id}U` },
      decision: { name: `Certified${id}Decision` },
      format: 'General',
      isText: true,
    })),
  },
  ageing: {
    words: 'ageing',
    about: ['Projector', 'PictureMode'],
    done: { count: 'value', name: 'PointCount' },
    all: { count: 'at least', name: 'PointCount', least: FEWEST_POINTS },
    figures: [
      {
        label: 'Hours to 70 % of the initial light',
        value: { name: 'HoursTo' },
        decision: { name: 'HoursTrust' },
        format: '#,##0',
      },
      {
        label: 'Hours to what the room needs',
        value: { name: 'HoursTo', row: 2 },
        decision: { name: 'HoursTrust', row: 2 },
        format: '#,##0',
      },
    ],
  },
};

/** What is told of a sheet; `has` says which names it has. Undefined for kinds that are lists and reports themselves. */
export function outlineOf(kind: SheetKind, has: (name: CellName) => boolean): Outline | undefined {
  return kind === 'run' && has(PATTERNS[0]) ? TILED_RUN : OUTLINES[kind];
}

/** Every name that an overview looks at on sheets of a kind. */
export function lookedAt(kind: SheetKind): readonly CellName[] {
  const outlines = [outlineOf(kind, () => false), outlineOf(kind, () => true)].filter(
    (outline) => outline !== undefined,
  );
  return [...new Set(outlines.flatMap(namesOf))];
}

function namesOf({ about, done, all, figures }: Outline): CellName[] {
  return [
    ...('tally' in about ? inSource(about.tally) : about),
    ...inSource(done),
    ...inSource(all),
    ...figures.flatMap(({ value, u, decision }) =>
      [value, u, decision].flatMap((source) => (source ? inSource(source) : [])),
    ),
  ];
}

function inSource(source: Source): readonly CellName[] {
  return 'names' in source ? source.names : 'name' in source ? [source.name] : [];
}
