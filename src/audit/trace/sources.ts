import { FUNCTIONS, NAMESPACE } from '../../functions/table';
import type { Node } from '../formula/ast';
import { nodesOf } from '../formula/ast';

/** What a quantity is and where that comes from. */
export interface Source {
  readonly definition: string;
  readonly source: string;
}

/** The definition behind a call of ours in a formula: that of the first call. */
export function sourceOfCall(node: Node): Source | undefined {
  for (const part of nodesOf(node)) {
    if (part.kind !== 'call') continue;
    const record = FUNCTIONS.find(({ id }) => `${NAMESPACE}.${id}` === part.name);
    if (record) return { definition: record.formula, source: record.source };
  }
  return undefined;
}

/** Quantities that a sheet works out in plain formulas only, by name. */
const NAMED: readonly (readonly [RegExp, string, string])[] = [
  [
    /Net$/,
    'E = (number on the display × range factor × lux per unit × calibration − ambient) × spectral correction × factor for the sensor’s place',
    'common practice; the display is not the illuminance until the range factor is applied',
  ],
  [
    /^AmbientLux$/,
    'E = number on the display × range factor × lux per unit × calibration',
    'common practice',
  ],
  [/^(AmbientMean|Board(White|Black)|.*Mean)$/, 'arithmetic mean', 'arithmetic'],
  [
    /^LastIlluminance$/,
    'E = (number on the display × range factor × lux per unit × calibration − ambient) × spectral correction × factor for the sensor’s place + ambient',
    'common practice',
  ],
  [
    /^Image(Width|Height)$/,
    'from one length and the aspect ratio, or the mean of two sides',
    'plane geometry; 1 ft = 0.3048 m, 1 in = 0.0254 m: NIST SP 811, appendix B',
  ],
  [
    /^ImageArea$/,
    'width × height; of four sides ¼·√(4p²q² − (b² + d² − a² − c²)²)',
    'plane geometry; Bretschneider’s formula (handbooks of geometry)',
  ],
  [
    /^(DiagonalClosing|SideMiss)$/,
    'the diagonal that four sides and the other one make, and how far the measured one misses it',
    'law of cosines (handbooks of geometry)',
  ],
  [/^LuxPerUnit$/, '1 lx; 1 fc = 1 lm ÷ (0.3048 m)²', 'NIST SP 811, appendix B'],
  [/Correction$/, 'calibration factor × spectral correction', 'common practice'],
  [/Scatter$/, 'pooled standard deviation of one reading', 'JCGM 100, 4.2'],
  [
    /^(LotsFrom|LotLetters|AqlRows|Plan(Sizes|Accepts|Rejects|Lots|Letters|Aqls)|SampleSizes|AcceptNumbers)$/,
    'single sampling, by level and severity of the sheet: size of the lot and AQL to sample size, acceptance and rejection number',
    'MIL-STD-105E, tables I and II-A to II-C, as ISO 2859-1 (from memory)',
  ],
  [/Parts$/, 'standard uncertainty × sensitivity, one line a cause', 'JCGM 100, 5.1.3'],
  [/Sensitivities$/, 'first derivatives of the result', 'JCGM 100, 5.1.3'],
  [/(Used|Half)$/, 'half-width as entered, or a cautious value where none was', 'stated on the sheet'],
];

export function sourceOfName(name: string): Source | undefined {
  const found = NAMED.find(([pattern]) => pattern.test(name));
  return found && { definition: found[1], source: found[2] };
}
