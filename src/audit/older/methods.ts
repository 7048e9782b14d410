import type { CellName } from '../../sheets/names/all';
import { every } from '../../sheets/names/every';
import { CAUSES } from '../../sheets/names/shared';
import type { SheetKind } from '../../sheets/plan';

/** A change of what is computed: sheets of earlier layouts show another number from the same readings. */
export interface MethodChange {
  readonly kind: SheetKind;
  /** The first layout that computes it anew. */
  readonly layout: number;
  /** Version of the program since which it is so. */
  readonly since: string;
  /** The figures that the change is about; what rests on them follows. */
  readonly names: readonly CellName[];
  /** What is different, as a sentence of its own: `The black level’s doubt is modelled since 0.2.` */
  readonly words: string;
  /** True where a custom function computes otherwise, so that older sheets do too as soon as they are calculated. */
  readonly isOfFunction?: true;
}

/**
 * Every change of a method since the first program, oldest first. The same changes stand with their worked examples
 * in src/CHANGES.md.
 */
export const METHOD_CHANGES: readonly MethodChange[] = [
  {
    kind: 'ageing',
    layout: 3,
    since: '0.2',
    names: ['HoursToFrom', 'HoursToUntil'],
    words: 'Hours to a part of the first measurement hold the doubt of that measurement since 0.2.',
    isOfFunction: true,
  },
  {
    kind: 'ageing',
    layout: 5,
    since: '0.2',
    names: ['HoursTo'],
    words:
      'Since layout 5 light that is at or below a level by the fit at the last hour has reached it, whether it falls or not.',
    isOfFunction: true,
  },
  {
    kind: 'ageing',
    layout: 5,
    since: '0.2',
    names: ['HoursTrust', 'NextAfter'],
    words:
      'Since layout 5 the next measurement is due now where light that does not fall is too little, or where the measurements do not tell whether it is still enough.',
  },
  {
    kind: 'certificate',
    layout: 3,
    since: '0.2',
    names: ['CertifiedCount'],
    words:
      'Since 0.2 a certificate is complete only with meter, person and date, where function and plain formula agree, and while nothing has changed since it was compared with its seal.',
  },
  {
    kind: 'run',
    layout: 5,
    since: '0.2',
    names: [
      'CauseStatus',
      ...every(['White', 'Red', 'Green', 'Blue', 'Black'], ['MismatchUsed']),
      'AmbientHalfUsed',
      ...every(['Digits'], ['White', 'Colour', 'Black']),
      ...every(
        ['White', 'Colour', 'Ratio', 'Luminance', 'Uniformity', 'Contrast', 'Board'],
        ['Parts', 'Sensitivities', 'Halves'],
      ),
    ],
    words:
      'Since 0.2 budgets hold the placing of the meter, its linearity, its distance from the screen and the light the room sends back; the spectral mismatch follows from f1′ and the light source, with white as the sum of its primaries; one measured length counts for width and height together; and the offset that a field and ambient light share in one range cancels.',
  },
  {
    kind: 'run',
    layout: 5,
    since: '0.2',
    names: ['SequentialContrast', 'SequentialContrastPlain', 'BoardContrast', 'BoardContrastPlain'],
    words: 'A contrast whose black is no larger than its own doubt is a bound since 0.2.',
  },
  {
    kind: 'run',
    layout: 6,
    since: '0.2',
    names: ['CauseStatus', ...every(['White', 'Colour', 'Luminance'], ['Parts', 'Sensitivities', 'Halves'])],
    words:
      'Since layout 6 a light output’s budget holds light that falls obliquely on the meter, by its cosine index f2.',
  },
  {
    kind: 'batch',
    layout: 3,
    since: '0.2',
    names: [
      'FunctionTable',
      ...every(['White', 'Red', 'Green', 'Blue'], ['MismatchUsed', 'Correction', 'Factor']),
      ...every(['White', 'Colour'], ['SharedParts', 'SharedU', 'Dof', 'K', 'Cover', 'Shared']),
      ...every(['Red', 'Green', 'Blue'], ['Own']),
      'SpreadTerms',
    ],
    words:
      'Since layout 3 a batch’s budget holds what a run’s does: the placing of the meter, its linearity, its distance from the screen, oblique light and the light the room sends back; the spectral mismatch follows from f1′ and the light source, and one measured length counts for width and height together.',
  },
  {
    kind: 'run',
    layout: 7,
    since: '0.2',
    names: ['Drift', 'DriftPlain', 'DriftHalf'],
    words: 'Since layout 7 drift is that of the projector’s light: ambient light is taken off both readings.',
  },
  {
    kind: 'run',
    layout: 7,
    since: '0.2',
    names: ['RivalPoints', 'UniformityTrust'],
    words:
      'Since layout 7 the placing of the meter counts where a point may be taken for the darkest or the brightest.',
  },
  ...(
    [
      ['run', 7],
      ['batch', 5],
    ] as const
  ).map(
    ([kind, layout]): MethodChange => ({
      kind,
      layout,
      since: '0.2',
      names: ['ImageArea'],
      words: `Since layout ${layout} four sides and two diagonals that miss a plane figure by over 1 % of the longest side have no area.`,
    }),
  ),
  {
    kind: 'run',
    layout: 7,
    since: '0.2',
    names: [
      ...every(['White', 'Red', 'Green', 'Blue', 'Black', 'Corner'], ['Net']),
      ...every(['White', 'Red', 'Green', 'Blue', 'Colour'], ['LightOutput']),
      'WhiteIlluminance',
      'FittedOutput',
      ...every(['UniformityMin'], ['Max', 'Mean']),
      ...every(['Deviation'], ['Plus', 'Minus']),
      'CornersToCentre',
      ...every(['SequentialContrast', 'BoardContrast'], ['', 'Seen', 'Plain', 'SeenPlain']),
      'BoardWhite',
      'BoardBlack',
      'LastIlluminance',
      ...every(['Digits'], ['White', 'Colour', 'Black', 'Uniformity', 'Board']),
      'RivalPoints',
      ...every(['Black', 'Board'], ['Doubt']),
      ...every(['White', 'Red', 'Green', 'Blue', 'Black'], ['Scatter']),
      ...every(
        ['White', 'Colour', 'Ratio', 'Luminance', 'Uniformity', 'Contrast', 'Board'],
        ['Parts', 'Sensitivities', 'Halves'],
      ),
    ],
    words:
      'Since layout 7 what corrects the projector’s light, its spectrum and the sensor’s place, bears on what is left when ambient light is taken off; before it bore on the ambient light in the reading as well.',
  },
  {
    kind: 'batch',
    layout: 5,
    since: '0.2',
    names: [
      'FunctionTable',
      ...every(
        ['Unit'],
        ['State', 'White', 'Red', 'Green', 'Blue', 'WhitePart', 'ColourPart', 'Ratio', 'Uniformity'],
      ),
      ...every(['White', 'Colour'], ['Ambient', 'AmbientPart', 'SharedParts']),
      'SpreadTerms',
    ],
    words:
      'Since layout 5 what corrects the projector’s light, its spectrum and the sensor’s place, bears on what is left when ambient light is taken off; before it bore on the ambient light in the reading as well.',
  },
  {
    kind: 'spot',
    layout: 4,
    since: '0.2',
    names: every(['White', 'Red', 'Green', 'Blue'], ['Net']),
    words:
      'Since layout 4 the spectral correction of a colour bears on what is left when ambient light is taken off; before it bore on the ambient light in the reading as well.',
  },
];

/** How far the measured lengths of an image miss each other. */
const OF_SIDES = ['DiagonalClosing', 'SideMiss'] as const;
const OF_METER = ['MeterCertificate', 'CalibrationDue'] as const;

/** Names that were first given in a layout, by kind and layout: an older sheet does not miss them. */
const NAMES_SINCE: Readonly<Partial<Record<SheetKind, Readonly<Record<number, readonly CellName[]>>>>> = {
  acceptance: {
    6: [
      'AqlRows',
      'InspectionLevel',
      'LotLetters',
      'LotsFrom',
      'PlanAccepts',
      'PlanRejects',
      'PlanSizes',
      'RejectNumber',
      'Severity',
    ],
  },
  batch: {
    3: [...CAUSES, ...OF_METER],
    5: [...OF_SIDES, 'LightFactors', ...every(['White', 'Red', 'Green', 'Blue'], ['Light'])],
  },
  certificate: { 5: [...OF_METER, 'LightSource', 'SignalStandard'] },
  run: {
    5: [
      ...every(['MeterF1', 'PlacingHalf', 'LinearityHalf', 'RoomHalf'], ['', 'Used']),
      'MeterStatement',
      'LightSource',
      'ThrowDistance',
      'SensorHeight',
      'SensorFactor',
      'SensorHalf',
      'WhiteMixture',
      'BlackDoubt',
      'BoardDoubt',
      ...every(['Digits'], ['Uniformity', 'Board']),
      ...every(['Darkest', 'Brightest'], ['AmbientRange']),
    ],
    6: [
      ...every(['MeterF2', 'RepeatPart'], ['', 'Used']),
      'ObliqueHalf',
      'RepeatCount',
      'RepeatNu',
      'MeterCheck',
      ...every(['FittedOutput'], ['', 'Plain']),
      ...OF_METER,
      'WhiteTrust',
      'ColourTrust',
    ],
    7: OF_SIDES,
  },
};

/** Names whose cells have become more or fewer in a layout, because a list has other lines. */
const LINES_SINCE: Readonly<Partial<Record<SheetKind, Readonly<Record<number, RegExp>>>>> = {
  run: {
    5: /(Parts|Components|Halves|Shapes|Sensitivities|Nu|Shares)$|^Cause(Labels|Status)$/,
    6: /(Parts|Components|Halves|Shapes|Sensitivities|Nu|Shares)$|^Cause(Labels|Status)$|Agreement$/,
  },
  comparison: { 4: /(Shared|Parts|Nu)$/ },
  acceptance: { 6: /^Agreement$/ },
  batch: { 3: /^(SharedNu|(White|Colour)SharedParts)$/ },
};

/** Whether a name of a layout may cover other lines than today's. */
export function isLonger(kind: SheetKind, layout: number, name: string): boolean {
  return Object.entries(LINES_SINCE[kind] ?? {}).some(
    ([since, names]) => Number(since) > layout && names.test(name),
  );
}

/** Whether a sheet of a layout cannot have a name yet. */
export function isLater(kind: SheetKind, layout: number, name: string): boolean {
  return Object.entries(NAMES_SINCE[kind] ?? {}).some(
    ([since, names]) => Number(since) > layout && (names as readonly string[]).includes(name),
  );
}
