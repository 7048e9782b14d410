import { SIGNAL_STANDARDS, standardShares } from '../../photometry/colour';
import type { Primary } from '../../photometry/tiles';
import type { ResultName } from '../names/all';
import { stemOf } from '../names/stem';
import type { RunSetup } from '../runsetup';
import { FORMAT } from './layout';
import { lightOf } from './lightof';
import { ambientAtCentre } from './net';

interface Need {
  readonly range: string;
  readonly count: number;
  /** What the result says while it is not there; "waiting" unless given. */
  readonly otherwise?: string;
  /** The same as a formula without "=", where it depends on more than whether it is there. */
  readonly says?: string;
}

/** A result of a run: where it comes from, twice, and when it can be had. */
export interface RunResult {
  readonly name: ResultName;
  readonly label: string;
  readonly unit: string;
  readonly format: string;
  /** What must be complete: ranges of numbers, all of whose cells must hold one. */
  readonly needs: readonly Need[];
  /** Custom function, and the plain formula that must give the same; both without "=". */
  readonly custom: string;
  readonly twin: string;
  /** The definition in a few words, for the sheet's last column. */
  readonly meaning: string;
  /** On the way to a result that stands below it: no name of the sheet. */
  readonly isStep?: true;
  /** Id of the custom function whose formula and source stand in the cell's note. */
  readonly fn: string;
}

const net = (stem: string, count = 9) => ({ range: `${stem}Net`, count });
const cell = (name: string) => ({ range: name, count: 1 });
/** Another result, by its plain formula: that one is there without the add-in, so that twins stand alone. */
const result = (name: string) => cell(`${name}Plain`);

/** Without an area that counts there are no lumens: a length is missing, or four sides and two diagonals do not fit. */
const AREA = { range: 'ImageArea', count: 1, otherwise: 'see set-up' } as const;

/** The grid a function takes: readings as typed, or the means of the repeats. */
type Display = (stem: 'White' | 'Red' | 'Green' | 'Blue') => string;

/** From numbers on the display to illuminances, the room's light taken off. */
const conversion = (stem: string) => `MeterUnit,${stem}Range,CalibrationFactor,AmbientLux`;
/** The same with what corrects the projector's light; in a ratio of two points of a field it cancels. */
const corrected = (stem: string) => `${conversion(stem)},${lightOf(stem)}`;

/** Illuminances that no meter can have shown: the twins refuse them as the functions do. */
const tooBright = (stem: string) => `MAX(${stem}Net)/(${lightOf(stem)})+AmbientMean>200000`;
const usable = (stem: string, value: string) =>
  `IF(OR(MIN(${stem}Net)<0,${tooBright(stem)}),"see remarks",${value})`;

function output(stem: 'White' | 'Red' | 'Green' | 'Blue', display: Display): RunResult {
  return {
    name: `${stem}LightOutput`,
    label: `${stem} light output`,
    unit: 'lm',
    format: FORMAT.lumens,
    needs: [net(stem), AREA],
    custom: `LIGHT.OUTPUT(${display(stem)},ImageArea,${corrected(stem)})`,
    twin: usable(stem, `AVERAGE(${stem}Net)*ImageArea`),
    meaning: 'mean of nine × image area',
    fn: 'OUTPUT',
  };
}

const COLOUR_NEEDS = [net('Red'), net('Green'), net('Blue')];

function colourResults(display: Display): RunResult[] {
  return [
    output('Red', display),
    output('Green', display),
    output('Blue', display),
    {
      name: 'ColourLightOutput',
      label: 'Colour light output',
      unit: 'lm',
      format: FORMAT.lumens,
      needs: [...COLOUR_NEEDS, AREA],
      custom: `LIGHT.COLOUROUTPUT(${display('Red')},${display('Green')},${display('Blue')},ImageArea,MeterUnit,RedRange,GreenRange,BlueRange,CalibrationFactor,CalibrationFactor,CalibrationFactor,AmbientLux,${lightOf('Red')},${lightOf('Green')},${lightOf('Blue')})`,
      twin: usable(
        'Red',
        usable('Green', usable('Blue', '(AVERAGE(RedNet)+AVERAGE(GreenNet)+AVERAGE(BlueNet))*ImageArea')),
      ),
      meaning: 'red + green + blue',
      fn: 'COLOUROUTPUT',
    },
    {
      name: 'ColourToWhite',
      label: 'Colour to white ratio',
      unit: '',
      format: FORMAT.ratio,
      needs: [result('ColourLightOutput'), result('WhiteLightOutput')],
      custom: 'LIGHT.RATIO(ColourLightOutput,WhiteLightOutput)',
      twin: 'ColourLightOutputPlain/WhiteLightOutputPlain',
      meaning: 'colour ÷ white light output',
      fn: 'RATIO',
    },
    ...(['red', 'green', 'blue'] as const).flatMap(share),
  ];
}

/** A primary's share of the colour light output, and the share a signal standard gives it. */
function share(primary: Primary, i: number): RunResult[] {
  const stem = stemOf(primary);
  const values = SIGNAL_STANDARDS.map((standard) => {
    const shares = standardShares(standard);
    if (!shares.ok) throw new Error(`No shares for ${standard}`);
    // Fifteen digits, as spreadsheets keep them; without trailing zeros, which one engine takes for text.
    return String(Number(shares.value[primary].toPrecision(15)));
  });
  // A chain of IFs, not a lookup: array constants are the one thing spreadsheet programs spell differently.
  const chain = SIGNAL_STANDARDS.reduceRight(
    (rest, standard, k) => `IF(SignalStandard="${standard}",${values[k]},${rest})`,
    '"unknown standard"',
  );
  return [
    {
      name: `${stem}Share`,
      label: `${stem} share of colour`,
      unit: '',
      format: FORMAT.percent,
      needs: [result('RedLightOutput'), result('GreenLightOutput'), result('BlueLightOutput')],
      custom: `INDEX(LIGHT.BALANCE(RedLightOutput,GreenLightOutput,BlueLightOutput,SignalStandard),${i + 2},2)`,
      twin: `${stem}LightOutputPlain/(RedLightOutputPlain+GreenLightOutputPlain+BlueLightOutputPlain)`,
      meaning: 'part of red + green + blue',
      fn: 'BALANCE',
    },
    {
      name: `${stem}ShareStandard`,
      label: `${stem} share, standard white`,
      unit: '',
      format: FORMAT.percent,
      needs: [],
      custom: `LIGHT.STANDARDSHARE(SignalStandard,"${primary}")`,
      twin: chain,
      meaning: 'Y of the primary at standard white',
      fn: 'STANDARDSHARE',
    },
  ];
}

/** Of nine points weighed 9 : 6 : 4 they have 3 more than the edges, the centre 2 less. */
const CORNERS = [1, 3].flatMap((row) => [1, 3].map((column) => `INDEX(WhiteNet,${row},${column})`)).join('+');

const whiteResults = (display: Display): RunResult[] => [
  output('White', display),
  {
    name: 'WhiteIlluminance',
    label: 'Mean white illuminance',
    unit: 'lx',
    format: FORMAT.lux,
    needs: [net('White')],
    custom: `LIGHT.MEANILLUMINANCE(${display('White')},${corrected('White')})`,
    twin: usable('White', 'AVERAGE(WhiteNet)'),
    meaning: 'mean of nine net illuminances',
    fn: 'MEANILLUMINANCE',
  },
  {
    name: 'FittedOutput',
    label: 'White over the whole image, estimate',
    unit: 'lm',
    format: FORMAT.lumens,
    needs: [net('White'), AREA],
    custom: `LIGHT.FITTEDOUTPUT(${display('White')},ImageArea,${corrected('White')})`,
    twin: usable('White', `(6*SUM(WhiteNet)+3*(${CORNERS})-2*INDEX(WhiteNet,2,2))/64*ImageArea`),
    meaning: 'by a smooth surface; for figures of other origin',
    fn: 'FITTEDOUTPUT',
  },
  {
    name: 'ScreenLuminance',
    label: 'Mean screen luminance, white',
    unit: 'cd/m²',
    format: FORMAT.luminance,
    needs: [result('WhiteIlluminance')],
    meaning: 'illuminance × gain ÷ π',
    custom: 'LIGHT.LUMINANCE(WhiteIlluminance,ScreenGain)',
    twin: 'WhiteIlluminancePlain*ScreenGain/PI()',
    fn: 'LUMINANCE',
  },
  {
    name: 'ScreenFootlamberts',
    label: 'The same in footlamberts',
    unit: 'fL',
    format: FORMAT.luminance,
    needs: [result('WhiteIlluminance')],
    meaning: 'footcandles × gain',
    custom: 'LIGHT.LUMINANCE(WhiteIlluminance,ScreenGain,"fL")',
    twin: 'WhiteIlluminancePlain*ScreenGain*0.3048^2',
    fn: 'LUMINANCE',
  },
  {
    name: 'UniformityMinMax',
    label: 'Uniformity, min ÷ max of nine',
    unit: '',
    format: FORMAT.percent,
    needs: [net('White')],
    meaning: 'smallest ÷ largest of nine',
    custom: `LIGHT.UNIFORMITY(${display('White')},"min/max",${conversion('White')})`,
    twin: usable('White', 'MIN(WhiteNet)/MAX(WhiteNet)'),
    fn: 'UNIFORMITY',
  },
  {
    name: 'UniformityMinMean',
    label: 'Uniformity, min ÷ mean of nine',
    unit: '',
    format: FORMAT.percent,
    needs: [net('White')],
    meaning: 'smallest ÷ mean of nine',
    custom: `LIGHT.UNIFORMITY(${display('White')},"min/mean",${conversion('White')})`,
    twin: usable('White', 'MIN(WhiteNet)/AVERAGE(WhiteNet)'),
    fn: 'UNIFORMITY',
  },
];

function cornerResults(ambient: string, display: Display): RunResult[] {
  const needs = [net('White'), net('Corner', 4)];
  const args = `${display('White')},CornerReadings,MeterUnit,WhiteRange,CornerRange,CalibrationFactor,AmbientLux,${ambient}`;
  const both = (value: string) => usable('White', usable('Corner', value));
  const deviation = (side: 'plus' | 'minus', pick: 'MAX' | 'MIN'): RunResult => ({
    name: side === 'plus' ? 'DeviationPlus' : 'DeviationMinus',
    label: side === 'plus' ? 'Plus deviation, 13 points' : 'Minus deviation, 13 points',
    unit: '',
    format: '+0.0 %;-0.0 %;0.0 %',
    needs,
    custom: `LIGHT.DEVIATION(${args},"${side}")`,
    twin: both(`${pick}(WhiteNet,CornerNet)/AVERAGE(WhiteNet)-1`),
    meaning: 'extreme of 13 ÷ mean of nine − 1',
    fn: 'DEVIATION',
  });
  return [
    deviation('plus', 'MAX'),
    deviation('minus', 'MIN'),
    {
      name: 'CornersToCentre',
      label: 'Corners ÷ centre',
      unit: '',
      format: FORMAT.percent,
      needs,
      custom: `LIGHT.CORNERS(${args})`,
      twin: both('AVERAGE(CornerNet)/INDEX(WhiteNet,2,2)'),
      meaning: 'mean of points 10–13 ÷ point 5',
      fn: 'CORNERS',
    },
  ];
}

/**
 * Contrast with the cautious answer where black is too dark for the meter. Both sides of the comparison come
 * from the same display steps and are often equal, so it is made with a margin of 1e-9: rounding must not decide.
 */
const MARGIN = '1.000000001';
const atLeast = (white: string, black: string, step: string, doubt = '0') => {
  const floor = doubt === '0' ? step : `MAX(${step},${doubt})`;
  const bound = doubt === '0' ? step : `MAX(${step},MAX(0,${black})+${doubt})`;
  return `IF(${black}>${floor}*${MARGIN},${white}/${black},IF(${black}<-${floor}*${MARGIN},"see remarks","at least "&INT(${white}/${bound}*${MARGIN})))`;
};

const BLACK_STEP = '(MeterDigit*MAX(BlackRange)*LuxPerUnit*WhiteCorrection)';
function blackResults(display: Display): RunResult[] {
  const needs = [net('White'), net('Black')];
  const args = `${display('White')},BlackReadings,MeterDigit*MAX(BlackRange)*LuxPerUnit*WhiteCorrection,MeterUnit,WhiteRange,BlackRange,CalibrationFactor,AmbientLux,COUNT(BlackReadings)`;
  return [
    {
      name: 'SequentialContrast',
      label: 'Sequential contrast, net',
      unit: ': 1',
      format: '#,##0.0',
      needs,
      meaning: 'mean white ÷ mean black',
      custom: `LIGHT.CONTRAST(${args},BlackDoubt,${lightOf('Black')})`,
      twin: usable('White', atLeast('AVERAGE(WhiteNet)', 'AVERAGE(BlackNet)', BLACK_STEP, 'BlackDoubt')),
      fn: 'CONTRAST',
    },
    {
      name: 'SequentialContrastSeen',
      label: 'Sequential contrast, as seen',
      unit: ': 1',
      format: '#,##0.0',
      needs,
      meaning: 'the same, ambient included',
      custom: `LIGHT.CONTRAST(${args},,${lightOf('Black')},"as seen")`,
      // What is seen does not hang on what ambient was taken off.
      twin: `IF(${tooBright('White')},"see remarks",${atLeast('(AVERAGE(WhiteNet)+AmbientMean)', '(AVERAGE(BlackNet)+AmbientMean)', BLACK_STEP)})`,
      fn: 'CONTRAST',
    },
  ];
}

const BOARD_STEP = '(MeterDigit*BoardRange*LuxPerUnit*WhiteCorrection)';
function boardResults(): RunResult[] {
  const needs = [{ range: 'BoardReadings', count: 16 }, cell('AmbientMean')];
  const args = `BoardReadings,BoardTopLeft,${BOARD_STEP.slice(1, -1)},MeterUnit,BoardRange,CalibrationFactor,AmbientMean,COUNT(BoardReadings)`;
  const ordered = (value: string) => `IF(BoardBlack>BoardWhite,"see remarks",${value})`;
  return [
    {
      name: 'BoardContrast',
      label: 'Checkerboard contrast, net',
      unit: ': 1',
      format: '#,##0.0',
      needs,
      meaning: 'mean of 8 white ÷ mean of 8 black',
      custom: `LIGHT.CHECKERBOARD(${args},BoardDoubt,${lightOf('Board')})`,
      twin: ordered(
        atLeast('(BoardWhite-AmbientMean)', '(BoardBlack-AmbientMean)', BOARD_STEP, 'BoardDoubt'),
      ),
      fn: 'CHECKERBOARD',
    },
    {
      name: 'BoardContrastSeen',
      label: 'Checkerboard contrast, as seen',
      unit: ': 1',
      format: '#,##0.0',
      needs,
      meaning: 'the same, ambient included',
      custom: `LIGHT.CHECKERBOARD(${args},,${lightOf('Board')},"as seen")`,
      twin: ordered(atLeast('BoardWhite', 'BoardBlack', BOARD_STEP)),
      fn: 'CHECKERBOARD',
    },
  ];
}

/** Of the projector's light alone: the room's is in both readings of the centre, and would hide a part of it. */
function driftResult(ambient: ResultChoices['ambient']): RunResult {
  const dark = ambientAtCentre(ambient);
  const [first, last] = [
    `((INDEX(WhiteReadings,2,2)*INDEX(WhiteRange,2,2)*LuxPerUnit*CalibrationFactor-${dark})*${lightOf('White')})`,
    `(LastIlluminance-${dark})`,
  ];
  return {
    name: 'Drift',
    label: 'Drift of the centre over the run',
    unit: '',
    format: '+0.0 %;-0.0 %;0.0 %',
    needs: [net('White'), cell('LastIlluminance')],
    custom: `LIGHT.DRIFT(${first},${last})`,
    twin: `IF(OR(${first}<=0,${last}<=0),"see remarks",${last}/${first}-1)`,
    meaning: 'last ÷ first net illuminance of the centre − 1',
    fn: 'DRIFT',
  };
}

/** What of a set-up decides which results there are. */
export type ResultChoices = Pick<
  RunSetup,
  'colour' | 'black' | 'checkerboard' | 'corners' | 'ambient' | 'repeats'
>;

/** The results a set-up leads to, in the order of the sheet. */
export function runResults(setup: ResultChoices): RunResult[] {
  // Sorted tiles are means already where there are repeats.
  const isMean = (stem: string) =>
    setup.repeats > 1 && (stem === 'White' || setup.colour !== 'tiled patterns');
  const display: Display = (stem) => (isMean(stem) ? `${stem}Mean` : `${stem}Readings`);
  const [white, ...others] = whiteResults(display);
  return [
    white!,
    ...(setup.colour === 'none' ? [] : colourResults(display)),
    ...others,
    ...(setup.corners
      ? cornerResults(setup.ambient === 'nine points' ? 'CornerAmbient' : 'AmbientLux', display)
      : []),
    ...(setup.black ? blackResults(display) : []),
    ...(setup.checkerboard ? boardResults() : []),
    driftResult(setup.ambient),
  ];
}
