import { measuredShares, SIGNAL_STANDARDS, standardShares } from '../photometry/colour';
import { all, chain, good } from '../photometry/outcome';
import { PRIMARIES } from '../photometry/tiles';
import { choice, number } from './params';
import { define } from './record';

// Above 0, because an empty cell arrives as 0 and would be a share of nothing.
const lumens = (what: string) => number(`${what} light output`, 'lm', { moreThan: 0 });

export const colourFunctions = [
  define({
    id: 'BALANCE',
    summary: 'Shares of red, green and blue in colour light output, beside those of a signal standard.',
    params: {
      red: lumens('red'),
      green: lumens('green'),
      blue: lumens('blue'),
      standard: choice('signal standard', 'SIGNALSTANDARD', SIGNAL_STANDARDS, 'BT.709'),
    },
    result: { kind: 'table', unit: 'fraction' },
    formula: 'share = Φ of the primary ÷ (Φ_red + Φ_green + Φ_blue)',
    source:
      'ITU-R BT.709, BT.2020, SMPTE RP 431-2 primaries; normalised-primary method, SMPTE RP 177 (from memory). A lux meter gives no chromaticity.',
    example: '=LIGHT.BALANCE(480,1610,160,"BT.709")',
    compute: ({ red, green, blue, standard }) =>
      chain(
        all([measuredShares(red, green, blue), standardShares(standard)] as const),
        ([measured, wanted]) =>
          good([
            ['primary', 'share', standard, 'difference'],
            ...PRIMARIES.map((primary) => [
              primary,
              measured[primary],
              wanted[primary],
              measured[primary] - wanted[primary],
            ]),
          ]),
      ),
  }),
  define({
    id: 'STANDARDSHARE',
    summary: 'Share of one primary in the luminance of a signal standard’s white.',
    params: {
      standard: choice('signal standard', 'SIGNALSTANDARD', SIGNAL_STANDARDS),
      primary: choice('which primary', 'PRIMARY', PRIMARIES),
    },
    result: { kind: 'number', unit: 'fraction' },
    formula: 'Y of the primary, its XYZ scaled so that the three add up to white',
    source: 'ITU-R BT.709, BT.2020, SMPTE RP 431-2 primaries; SMPTE RP 177 (from memory)',
    example: '=LIGHT.STANDARDSHARE("BT.709","green")',
    compute: ({ standard, primary }) => chain(standardShares(standard), (shares) => good(shares[primary])),
  }),
];
