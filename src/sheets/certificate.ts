import { PlanBuilder } from './builder';
import { putFacts } from './certificate/facts';
import { putMap, putResults } from './certificate/results';
import { type CertifiedRun, notMeasured } from './certificate/run';
import { type CertifiedSeal, putSeal } from './certificate/seal';
import type { Plan } from './plan';
import { TEXT_MAX } from './setup/fields';

export const CERTIFICATE_VERSION = 5;

export interface CertificateSetup {
  readonly run: CertifiedRun;
  /** Number or mark of the certificate, and who issues it; both may be filled in on the sheet. */
  readonly number: string;
  readonly issuedBy: string;
  /** The seal of the run sheet as it was found; left out where there is none. */
  readonly seal?: CertifiedSeal;
}

/**
 * One page on one run, to print and sign: unit, method, conditions, results with U, decision, map, what was not
 * measured. It holds links to the run sheet and no figure of its own but those that stood there when it was compared
 * with its seal.
 */
export function certificatePlan({ run, number, issuedBy, seal }: CertificateSetup, id: string): Plan {
  const b = new PlanBuilder();
  b.wide('A1:F1', { role: 'title', value: 'Certificate of a light output measurement' }).height(1, 28);
  putInput(b, 2, 'Number', 'CertificateNumber', number);
  putInput(b, 3, 'Issued by', 'IssuedBy', issuedBy);
  let row = putFacts(b, 5, run) + 1;
  b.wide(`A${row}:F${row}`, { role: 'heading', value: 'Method' });
  b.wide(`A${row + 1}:F${row + 1}`, { role: 'note', value: methodOf(run) }).height(row + 1, 82);
  row = putResults(b, row + 3, run) + 1;
  row = putMap(b, row, run) + 1;
  b.wide(`A${row}:F${row}`, { role: 'heading', value: 'What this paper does not say' });
  b.wide(`A${row + 1}:F${row + 1}`, {
    role: 'note',
    value: `Not measured: ${notMeasured(run).join(', ')}.`,
  }).height(row + 1, 28);
  b.wide(`A${row + 2}:F${row + 2}`, { role: 'note', value: LIMITS }).height(row + 2, 68);
  row = putSeal(b, row + 4, run, seal);
  row = putSignatures(b, row + 1);
  return b.build({
    kind: 'certificate',
    version: CERTIFICATE_VERSION,
    id,
    title: `Certificate ${run.sheet.replace(/^Run /, '')}`,
    columns: { A: 26, B: 13, C: 13, D: 20, E: 13, F: 18 },
    print: { orientation: 'portrait', isOne: true },
    start: 'B2',
  });
}

const LIMITS =
  'The results hold for the unit, the mode and the day named above, as it stood there. They say nothing about other units of the same type, other modes or later hours. Nine points are the standard’s convention: a figure found over the whole image is mostly some per cent lower. A reading of a lux meter is no spectral measurement; what its spectral mismatch may amount to is part of U as far as it was stated. Readings, budget and formulas stand on the run sheet this page is linked to; whoever doubts a figure can follow it there.';

function methodOf({ addresses }: CertifiedRun): string {
  const tiled = addresses.PatternA !== undefined;
  const colour = !addresses.ColourLightOutput
    ? 'Colour was not measured.'
    : `Colour light output is the sum of red, green and blue, ${tiled ? 'from three tiled patterns that show all primaries at once' : 'each a full field'}.`;
  const ambient = addresses.AmbientReadings
    ? 'The ambient light, measured with the projector’s light blocked, is taken off every reading.'
    : 'Ambient light was not measured and is taken as 0 lx.';
  return `Light output is the mean of nine net illuminances on the image times its area (method of ISO/IEC 21118 and ISO 11315-1). ${colour} ${ambient} Uncertainty by GUM (JCGM 100:2008), cause by cause on the run sheet: the meter’s percentage, digits, linearity, spectral mismatch and cosine, its placing and its distance from the screen, the image’s size, ambient light and what the room sends back, drift and scatter.`;
}

function putInput(b: PlanBuilder, row: number, label: string, name: string, value: string): void {
  b.put(`A${row}`, { role: 'label', value: label });
  b.wide(`B${row}:F${row}`, { role: 'input', format: '@', ...(value ? { value } : {}) });
  b.name(name, `B${row}`, label);
  b.validate({
    range: `B${row}`,
    rule: { type: 'length', max: TEXT_MAX },
    prompt: { title: label, message: `Kept as text, at most ${TEXT_MAX} characters.` },
    refusal: { title: label, message: `At most ${TEXT_MAX} characters.`, style: 'stop' },
  });
}

/** Three lines to sign on paper: name, day, hand. */
function putSignatures(b: PlanBuilder, row: number): number {
  b.wide(`A${row}:F${row}`, { role: 'heading', value: 'Signatures' });
  ['Measured', 'Checked', 'For the supplier, if present'].forEach((who, i) => {
    const r = row + 1 + i;
    b.put(`A${r}`, { role: 'label', value: who });
    b.wide(`B${r}:C${r}`, { role: 'words' });
    b.put(`D${r}`, { role: 'label', value: 'day and signature' });
    b.wide(`E${r}:F${r}`, { role: 'words' });
    b.height(r, 28);
  });
  return row + 4;
}
