import { every } from './every';
import { ASKED, CAUSES, FIELDS, HALVES, IMAGE, MEASURED, METER, PRIMARIES } from './shared';

const BOTH = ['White', 'Colour'] as const;

/** A line a unit. */
const LINES = [
  'Serials',
  'RangeFactors',
  'Readings',
  'AmbientReadings',
  ...every(FIELDS, ['Readings']),
  ...every(
    ['Unit'],
    [
      'Places',
      'Hours',
      'Dates',
      'State',
      ...every(BOTH, ['', 'U', 'Estimate', 'Part', 'PartU']),
      ...PRIMARIES,
      'Ratio',
      'Uniformity',
      'Decision',
      'Remark',
    ],
  ),
  ...every(BOTH, ['Decision']),
  'FunctionTable',
  'Agreement',
] as const;

/** What all lines share. */
const SHARED = [
  'Limits',
  'DisplayFactors',
  'LightFactors',
  'ReferenceTerms',
  'SpreadTerms',
  'SharedNu',
  'SetupReady',
  ...every(FIELDS, ['Spectral', 'Correction', 'Factor', 'Light']),
  ...every(PRIMARIES, ['Own']),
  ...every(BOTH, [
    'Stated',
    'StatedU',
    'Limit',
    'Reference',
    'ReferenceOutput',
    'Ambient',
    'AmbientPart',
    'Cover',
    'Digits',
    'Shared',
    'SharedParts',
    ...every(['SharedU', 'Dof', 'K'], ['', 'Plain']),
  ]),
] as const;

export const BATCH_NAMES = [
  'Batch',
  'ReferenceUnit',
  ...MEASURED,
  ...METER,
  ...IMAGE,
  ...ASKED,
  ...HALVES,
  ...CAUSES,
  'AmbientRange',
  'AmbientLux',
  ...SHARED,
  ...LINES,
  ...every(['Units'], ['Listed', 'Complete', 'Passing', 'Conditional', 'Failing', 'Doubtful']),
  'RowsDiffering',
] as const;
