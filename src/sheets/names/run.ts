import { every } from './every';
import { ASKED, CAUSES, FIELDS, HALVES, IMAGE, MEASURED, METER, PRIMARIES, REPEATS } from './shared';

const PATTERNS = ['PatternA', 'PatternB', 'PatternC'] as const;
/** Results that have a budget. */
const BUDGETS = ['White', 'Colour', 'Ratio', 'Luminance', 'Uniformity', 'Contrast', 'Board'] as const;

const SETUP = [...MEASURED, 'SerialNumber', 'Place', 'MeasuredOn', ...METER, ...IMAGE, ...ASKED] as const;

const READINGS = [
  ...every(FIELDS, ['Readings', ...REPEATS, 'Mean', 'Range']),
  ...every(PATTERNS, ['', ...REPEATS, 'Mean', 'Range']),
  ...every(['Black', 'Corner', 'Board', 'Ambient'], ['Readings', 'Range']),
  ...every(['Last'], ['Reading', 'Range']),
  'BoardTopLeft',
  'CaptureNotes',
] as const;

/** What follows from readings before any result. */
const DERIVED = [
  ...every(FIELDS, ['Spectral', 'Correction']),
  ...every([...FIELDS, 'Black'], ['Net', 'Remarks', 'Scatter']),
  'AmbientLux',
  'AmbientMean',
  'CornerNet',
  'CornerAmbient',
  ...every(['BoardWhite', 'BoardBlack'], ['', 'Scatter']),
  'LastIlluminance',
  ...every(['Darkest', 'Brightest'], ['Point', 'Range', 'Ambient', 'AmbientRange']),
  'RivalPoints',
] as const;

/** Results stand twice: by a function, and by a plain formula. */
const RESULTS = every(
  [
    ...every(FIELDS, ['LightOutput']),
    'ColourLightOutput',
    'ColourToWhite',
    ...every(PRIMARIES, ['Share', 'ShareStandard']),
    'WhiteIlluminance',
    'FittedOutput',
    'ScreenLuminance',
    'ScreenFootlamberts',
    'UniformityMinMax',
    'UniformityMinMean',
    'DeviationPlus',
    'DeviationMinus',
    'CornersToCentre',
    'SequentialContrast',
    'SequentialContrastSeen',
    'BoardContrast',
    'BoardContrastSeen',
    'Drift',
    ...every(BUDGETS, ['U', 'Dof', 'K', 'Expanded']),
    ...every(['White', 'Colour'], ['Limit', 'Probability', 'Verdict']),
  ],
  ['', 'Plain'],
);

const BUDGET = [
  ...HALVES,
  ...every(['BlackMismatch', 'GainHalf'], ['', 'Used']),
  ...CAUSES,
  'RepeatCount',
  'RepeatNu',
  'WhiteMixture',
  'BlackDoubt',
  'BoardDoubt',
  'DriftHalf',
  ...every(['Digits'], ['White', 'Colour', 'Black', 'Uniformity', 'Board']),
  'CauseLabels',
  'CauseStatus',
  ...every(BUDGETS, ['Components', 'Halves', 'Shapes', 'Sensitivities', 'Parts', 'Shares', 'Nu']),
  ...every(['White', 'Colour', 'Uniformity', 'Contrast', 'Board'], ['Trust']),
] as const;

export const RUN_NAMES = [
  ...SETUP,
  ...READINGS,
  ...DERIVED,
  ...RESULTS,
  ...BUDGET,
  'Agreement',
  'DecisionAgreement',
] as const;
