import { errorFound } from '../metrology/metercheck/limit';
import { relativeScatter } from '../metrology/metercheck/scatter';
import { chain, good } from '../photometry/outcome';
import { known } from './lists';
import { column, filled } from './params';
import { define } from './record';

const LEAVE_OUT = 'leave out the row of what was not read';

export const meterCheckFunctions = [
  define({
    id: 'REPEATABILITY',
    summary: 'Scatter of one reading as a part of it, from repeated readings of one and the same light.',
    params: {
      repeats: filled(column('two or more readings, in one range of the meter', 'number'), LEAVE_OUT),
    },
    result: { kind: 'number', unit: 'fraction' },
    formula: 's ÷ mean, s = √(Σ(reading − mean)² ÷ (n − 1))',
    source: 'JCGM 100:2008 (GUM) clause 4.2.2, Type A',
    example: '=LIGHT.REPEATABILITY(B30:B39)',
    compute: ({ repeats }) => relativeScatter(repeats),
  }),
  define({
    id: 'ERRORLIMIT',
    summary: 'What a meter’s error is not beyond, from rounds of two readings each that should be equal.',
    params: {
      found: filled(column('what was found, one a round', 'number'), LEAVE_OUT),
      expected: filled(
        column('what it should be by the other reading of the round, in the same unit', 'number'),
        LEAVE_OUT,
      ),
      halfWidth: known(
        'half-width common to all rounds, as a part of what is expected: rounding of the displays, distances',
        '',
      ),
    },
    result: { kind: 'number', unit: 'fraction' },
    formula: '|mean error| + U, error = found ÷ expected − 1; U = k × √(s² ÷ n + half-width² ÷ 3) at 95.45 %',
    source: 'JCGM 100:2008 (GUM) clauses 4.2.3, 4.3.7 and G.4; an error left uncorrected: F.2.4.5',
    example: '=LIGHT.ERRORLIMIT(F45:F49,G45:G49,0.002)',
    compute: ({ found, expected, halfWidth }) =>
      chain(errorFound(found, expected, halfWidth ?? 0), ({ limit }) => good(limit)),
  }),
];
